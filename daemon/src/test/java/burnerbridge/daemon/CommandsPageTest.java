package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.demo.Demo;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import picocli.CommandLine.Model.OptionSpec;

/** {@code docs/commands.md} against the commands themselves: each option and argument is there, and nothing else. */
class CommandsPageTest {
    private static final Path ROOT = Path.of("..");
    private static final Pattern NAMED = Pattern.compile("`([^`]+)`");
    private static final Pattern VARIABLE = Pattern.compile("BURNER_BRIDGE_[A-Z_]+");
    private static final String PROGRAM = "burner-bridge ";

    /** The lines below each heading. */
    private final Map<String, List<String>> page = new LinkedHashMap<>();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @BeforeEach
    void read() throws IOException {
        String heading = "";
        for (String line : Files.readAllLines(ROOT.resolve("docs/commands.md"))) {
            heading = line.startsWith("## ") ? line.substring(3) : heading;
            page.computeIfAbsent(heading, none -> new ArrayList<>()).add(line);
        }
    }

    private List<String> section(String heading) {
        List<String> lines = page.get(heading);
        assertThat(lines).as("the section of " + heading).isNotNull();
        return lines == null ? List.of() : lines;
    }

    /** The cells of the tables below a heading, without their heads. */
    private List<List<String>> rows(String heading) {
        List<String> lines = section(heading);
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            boolean head = i + 1 < lines.size() && lines.get(i + 1).startsWith("|---");
            if (lines.get(i).startsWith("| ") && !head) {
                rows.add(Stream.of(lines.get(i).split("\\|"))
                        .skip(1)
                        .map(String::strip)
                        .toList());
            }
        }
        return rows;
    }

    private static String name(String cell) {
        return NAMED.matcher(cell)
                .results()
                .map(found -> found.group(1))
                .findFirst()
                .orElse(cell);
    }

    private static CommandLine command(String name) {
        return Objects.requireNonNull(Main.commandLine().getSubcommands().get(name), name);
    }

    private static Map<String, CommandLine> commands() {
        Map<String, CommandLine> commands =
                new LinkedHashMap<>(Main.commandLine().getSubcommands());
        commands.put("demo", new CommandLine(new Demo()));
        return commands;
    }

    private static boolean isCommon(OptionSpec option) {
        return option.names().length == 2 && (option.usageHelp() || option.versionHelp());
    }

    private static String asOnThePage(OptionSpec option) {
        return option.longestName() + (option.arity().max() == 0 ? "" : " " + option.paramLabel());
    }

    @Test
    void everyCommandHasItsSectionAndNothingElseHas() {
        List<String> others = List.of("", "Exit codes", "Environment variables");
        assertThat(page.keySet().stream().filter(heading -> !others.contains(heading)))
                .containsExactlyInAnyOrderElementsOf(commands().keySet());
    }

    @Test
    void everyOptionAndArgumentIsInTheTableOfItsCommandAndNothingElseIs() {
        commands().forEach((name, command) -> {
            List<String> own = new ArrayList<>();
            command.getCommandSpec().positionalParameters().forEach(argument -> own.add(argument.paramLabel()));
            command.getCommandSpec().options().stream()
                    .filter(option -> !isCommon(option))
                    .forEach(option -> own.add(asOnThePage(option)));
            assertThat(rows(name).stream().map(row -> name(row.get(0))))
                    .as(name)
                    .containsExactlyInAnyOrderElementsOf(own);
        });
    }

    @Test
    void whatAnOptionIsWithoutItIsAsTheProgramHasIt() {
        int numbers = 0;
        for (OptionSpec option : command("values").getCommandSpec().options()) {
            if (option.initialValue() instanceof Double number) {
                String plain = BigDecimal.valueOf(number).stripTrailingZeros().toPlainString();
                assertThat(rows("values").stream()
                                .filter(row -> name(row.get(0)).equals(asOnThePage(option)))
                                .map(row -> row.get(1)))
                        .singleElement()
                        .asString()
                        .contains("; " + plain + " without it");
                numbers++;
            }
        }
        assertThat(numbers).isEqualTo(2);
    }

    @Test
    void everyCommandButTheDemoHasTheCommonOptions() {
        List<String> common = rows("").stream().map(row -> row.get(0)).sorted().toList();
        Main.commandLine()
                .getSubcommands()
                .forEach((name, command) -> assertThat(command.getCommandSpec().options().stream()
                                .filter(CommandsPageTest::isCommon)
                                .map(option -> "`" + option.longestName() + "`, `" + option.shortestName() + "`")
                                .sorted())
                        .as(name)
                        .containsExactlyElementsOf(common));
    }

    @Test
    void theExitCodesAreThoseOfTheProgram() {
        List<Integer> codes = List.of(ExitCode.FINE, ExitCode.WARNINGS, ExitCode.BAD_INPUT, ExitCode.COULD_NOT_REACH);
        assertThat(rows("Exit codes").stream()
                        .filter(row -> !row.get(0).startsWith("`"))
                        .map(row -> row.get(0)))
                .containsExactlyElementsOf(
                        codes.stream().map(code -> Integer.toString(code)).toList());
    }

    @Test
    void theExamplesEndAndPrintAsThePageSays() throws IOException {
        copySite("quillmere");
        copySite("unbound");
        Files.delete(folder.resolve("unbound/bindings.csv"));
        TreeSet<String> codes = new TreeSet<>();
        for (List<String> row : rows("Exit codes")) {
            if (row.get(0).startsWith("`" + PROGRAM)) {
                codes.add(row.get(1));
                StringWriter said = new StringWriter();
                int code = execute(name(row.get(0)).substring(PROGRAM.length()), said);
                assertThat(said.toString().replace(folder + "/", ""))
                        .as(row.get(0))
                        .contains(name(row.get(2)));
                assertThat(Integer.toString(code)).as(row.get(0)).isEqualTo(row.get(1));
            }
        }
        assertThat(codes).containsExactly("0", "1", "2", "3");
    }

    private int execute(String words, StringWriter said) {
        CommandLine commandLine = Main.commandLine();
        commandLine.setOut(new PrintWriter(said, true));
        commandLine.setErr(new PrintWriter(said, true));
        return commandLine.execute(Stream.of(words.split(" "))
                .map(word -> word.matches("(quillmere|unbound|nowhere)\\b.*")
                        ? folder.resolve(word).toString()
                        : word)
                .toArray(String[]::new));
    }

    private void copySite(String name) throws IOException {
        Path from = ROOT.resolve("config/examples/quillmere");
        try (Stream<Path> all = Files.walk(from)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                Path to = folder.resolve(name).resolve(from.relativize(file).toString());
                Files.createDirectories(to.getParent());
                Files.copy(file, to);
            }
        }
    }

    @Test
    void everyVariableOfOurOwnInTheSourcesIsOnThePageAndNoOther() throws IOException {
        TreeSet<String> used = new TreeSet<>();
        List<String> sources = new ArrayList<>(List.of("daemon/src/dist"));
        for (String module : List.of(
                "bridge-core", "config", "bacnet-adapter", "mqtt-adapter", "web-adapter", "daemon", "simulator")) {
            sources.add(module + "/src/main");
        }
        for (String source : sources) {
            try (Stream<Path> all = Files.walk(ROOT.resolve(source))) {
                for (Path file : all.filter(Files::isRegularFile).toList()) {
                    used.addAll(variables(Files.readString(file, StandardCharsets.ISO_8859_1)));
                }
            }
        }
        assertThat(variables(String.join("\n", section("Environment variables"))))
                .isEqualTo(used);
    }

    private static TreeSet<String> variables(String text) {
        return VARIABLE.matcher(text).results().map(MatchResult::group).collect(Collectors.toCollection(TreeSet::new));
    }
}
