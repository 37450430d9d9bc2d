package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.GuidePage.Block;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.awaitility.Awaitility;

/** Somebody who does what a guide says and compares what he sees with it. */
final class GuideReader implements AutoCloseable {
    private static final String NAME = "glasshouse";
    private static final String DEVICE = "python3 outside/field-device.py ";
    private static final String PROGRAM = "./burner-bridge ";

    private static final Duration LONGEST = Duration.ofMinutes(2);

    private final Path folder;
    private final int port;
    private final int bacnetPort = FreePorts.udp();
    private final List<Program> running = new ArrayList<>();
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
            block.lines().forEach(line -> text.add(here(line)));
        }
        Files.write(file, text);
    }

    /** On ports of this machine. */
    private String here(String line) {
        return line.replace("5020", Integer.toString(port)).replace("47809", Integer.toString(bacnetPort));
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
        if (line.startsWith(DEVICE)) {
            startDevice(line.substring(DEVICE.length()).split(" "));
            return;
        }
        assertThat(line).startsWith(PROGRAM);
        List<String> command = command(line);
        if (line.contains(" run ")) {
            startBridge(command);
            return;
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

    private List<String> command(String line) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                // Not that of the tests, which says little.
                "-Dlogback.configurationFile="
                        + Path.of("src/main/resources/logback.xml").toAbsolutePath(),
                "burnerbridge.daemon.Main"));
        for (String word : line.substring(PROGRAM.length()).split(" ")) {
            command.add(word.equals(NAME) ? site().toString() : word);
        }
        if (line.contains(" values ") || line.contains(" run ")) {
            command.addAll(List.of("--state", folder.resolve("state").toString()));
        }
        return command;
    }

    /** @param words its port, which is another here, and the file with its registers */
    private void startDevice(String... words) {
        Path script = OutsideProgram.file("field-device.py");
        Path registers = GuidePage.DOCS.resolveSibling(words[1]);
        running.add(Program.start(
                folder.resolve("device.log"),
                List.of(OutsideProgram.PYTHON, script.toString(), Integer.toString(port), registers.toString())));
        Awaitility.await().atMost(LONGEST).ignoreExceptions().until(() -> {
            new Socket(InetAddress.getLoopbackAddress(), port).close();
            return true;
        });
    }

    /** It runs on while the next commands look through it; who types them takes longer than its first reads. */
    private void startBridge(List<String> command) {
        Program bridge = Program.start(folder.resolve("bridge.log"), command);
        running.add(bridge);
        Awaitility.await().atMost(LONGEST).until(() -> bridge.said().contains("control socket ") || !bridge.isAlive());
        assertThat(bridge.isAlive()).as(bridge.said()).isTrue();
        Awaitility.await().atMost(LONGEST).untilAsserted(() -> {
            type(PROGRAM + "values " + NAME + " --once");
            assertThat(seen).as(bridge.said()).anyMatch(row -> row.endsWith(" 0 uncertain, 0 stale, 0 bad"));
        });
    }

    @Override
    public void close() {
        running.forEach(Program::close);
    }

    private void compare(Block block) {
        assertThat(seen)
                .containsSubsequence(block.lines().stream()
                        .map(this::here)
                        .map(GuideReader::withoutAge)
                        .toList());
    }

    private static String withoutAge(String line) {
        return line.startsWith("boiler-1") ? line.replaceFirst(" +\\d+ s$", "") : line.stripTrailing();
    }
}
