package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.GuidePage.Block;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Somebody who does what a guide says and compares what he sees with it. */
final class GuideReader {
    private static final String NAME = "glasshouse";
    private static final String PROGRAM = "./burner-bridge ";

    private final Path folder;
    private final int port;
    private List<String> seen = List.of();

    /** @param port where the controller is, instead of the guide's 5020 */
    GuideReader(Path folder, int port) throws IOException {
        this.folder = folder;
        this.port = port;
        Files.createDirectories(site().resolve("points"));
    }

    private Path site() {
        return folder.resolve(NAME);
    }

    /** The last thing that a command printed. */
    List<String> seen() {
        return seen;
    }

    void follow(Block block) throws IOException {
        switch (block.kind()) {
            case "yaml" -> writeSettings(block);
            case "csv" -> writePoints(block);
            case "sh" -> type(block.first());
            case "text" -> compare(block);
            default -> throw new IllegalArgumentException("nobody knows how to follow " + block.kind());
        }
    }

    private void writeSettings(Block block) throws IOException {
        Path file = site().resolve("site.yaml");
        List<String> text = new ArrayList<>(Files.exists(file) ? Files.readAllLines(file) : List.of());
        if (block.first().startsWith("    ")) {
            replace(text, block.first(), ":");
        } else {
            block.lines().forEach(line -> text.add(line.replace("5020", Integer.toString(port))));
        }
        Files.write(file, text);
    }

    private void writePoints(Block block) throws IOException {
        Path file = site().resolve("points").resolve("glasshouse-burner.csv");
        if (block.first().startsWith("name,")) {
            Files.write(file, block.lines());
            return;
        }
        List<String> text = Files.readAllLines(file);
        block.lines().forEach(row -> replace(text, row, ","));
        Files.write(file, text);
    }

    /** Replaces the one line that begins as the new one does. */
    private static void replace(List<String> text, String line, String until) {
        String beginning = line.substring(0, line.indexOf(until) + 1);
        assertThat(text).filteredOn(old -> old.startsWith(beginning)).hasSize(1);
        text.replaceAll(old -> old.startsWith(beginning) ? line : old);
    }

    private void type(String line) {
        assertThat(line).startsWith(PROGRAM);
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                "burnerbridge.daemon.Main"));
        for (String word : line.substring(PROGRAM.length()).split(" ")) {
            command.add(word.equals(NAME) ? site().toString() : word);
        }
        if (line.contains(" values ")) {
            command.addAll(List.of("--state", folder.resolve("state").toString()));
        }
        Path log = folder.resolve("said");
        try (Program program = Program.start(log, command)) {
            program.awaitEnd();
            seen = program.said().lines().map(GuideReader::withoutAge).toList();
            Files.delete(log);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void compare(Block block) {
        assertThat(seen)
                .containsSubsequence(
                        block.lines().stream().map(GuideReader::withoutAge).toList());
    }

    private static String withoutAge(String line) {
        return line.startsWith("boiler-1") ? line.replaceFirst(" +\\d+ s$", "") : line.stripTrailing();
    }
}
