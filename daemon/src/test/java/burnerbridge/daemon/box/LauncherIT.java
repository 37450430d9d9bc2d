package burnerbridge.daemon.box;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.Program;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The launcher of the archive, as it lies there after unpacking. */
class LauncherIT {
    private static final String JAVA_HOME = System.getProperty("java.home");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private Path home;

    private int runs;

    private record Ended(int code, String said) {}

    @BeforeEach
    void unpack() throws IOException {
        home = PackedArchive.unpacked(folder.resolve("unpacked"));
    }

    @Test
    void itStartsTheProgramOfItsVersionFromAnywhereThroughALink() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("burner-bridge"), home.resolve("bin/burner-bridge"));

        Ended ended = run(link, Map.of("JAVA_HOME", JAVA_HOME), "--version");

        assertThat(ended).isEqualTo(new Ended(0, "burner-bridge " + PackedArchive.version() + "\n"));
    }

    @Test
    void theExitCodeIsThatOfTheProgram() throws Exception {
        Ended ended = run(launcher(), Map.of("JAVA_HOME", JAVA_HOME), "check", folder + "/nowhere");

        assertThat(ended.code()).isEqualTo(2);
        assertThat(ended.said()).contains("site.yaml: is missing");
    }

    @Test
    void withoutJavaItSaysWhatToInstall() throws Exception {
        Path tools = tools();

        Ended ended = run(launcher(), Map.of("PATH", tools.toString()), "--version");

        assertThat(ended.code()).isEqualTo(3);
        assertThat(ended.said()).startsWith("burner-bridge: no Java found; install a Java runtime 17 or newer");
    }

    @Test
    void aFolderWithoutJavaIsNamed() throws Exception {
        Ended ended = run(launcher(), Map.of("JAVA_HOME", folder + "/empty"), "--version");

        assertThat(ended.code()).isEqualTo(3);
        assertThat(ended.said()).contains("JAVA_HOME is " + folder + "/empty");
    }

    @Test
    void anOlderJavaIsRefusedByTheVersionThatLiesBesideItOrThatItTells() throws Exception {
        Path java = java("exit 9", "JAVA_VERSION=\"11.0.28\"\n");
        Ended beside = run(launcher(), Map.of("JAVA_HOME", java.toString()), "--version");
        Path telling = java("echo 'openjdk version \"1.8.0_452\"' >&2", "");
        Ended told = run(launcher(), Map.of("JAVA_HOME", telling.toString()), "--version");

        assertThat(beside.code()).isEqualTo(3);
        assertThat(beside.said()).endsWith("Java 17 or newer is needed; " + java + "/bin/java is version 11.\n");
        assertThat(told.code()).isEqualTo(3);
        assertThat(told.said()).endsWith("is version 1.\n");
    }

    @Test
    void memoryIsKeptSmallUnlessOtherOptionsAreGiven() throws Exception {
        Path java = java("printf '%s\\n' \"$@\" \"arenas $MALLOC_ARENA_MAX\"", "JAVA_VERSION=\"17.0.15\"\n");

        Ended usual = run(launcher(), Map.of("JAVA_HOME", java.toString()), "run", "a site");
        Ended given = run(
                launcher(),
                Map.of("JAVA_HOME", java.toString(), "BURNER_BRIDGE_JAVA_OPTIONS", "-Xmx256m -XX:+UseSerialGC"),
                "run",
                "a site");

        List<String> rest = List.of(
                "-DjSerialComm.library.path=" + home + "/native",
                "-cp",
                home + "/lib/*",
                "burnerbridge.daemon.Main",
                "run",
                "a site",
                "arenas 2");
        assertThat(usual.said().lines())
                .startsWith(
                        "-Xmx48m",
                        "-XX:+UseSerialGC",
                        "-XX:TieredStopAtLevel=1",
                        "-XX:+ExitOnOutOfMemoryError",
                        "-XX:-UsePerfData")
                .endsWith(rest.toArray(String[]::new));
        List<String> wanted = new ArrayList<>(List.of("-Xmx256m", "-XX:+UseSerialGC"));
        wanted.addAll(rest);
        assertThat(given.said().lines()).containsExactlyElementsOf(wanted);
    }

    @Test
    void aNewerJavaIsAllowedToLoadTheCodeForSerialPorts() throws Exception {
        Path java = java("printf '%s\\n' \"$@\"", "JAVA_VERSION=\"25.0.1\"\n");

        Ended ended = run(launcher(), Map.of("JAVA_HOME", java.toString()), "--version");

        assertThat(ended.said().lines()).contains("--enable-native-access=ALL-UNNAMED");
    }

    private Path launcher() {
        return home.resolve("bin/burner-bridge");
    }

    private Ended run(Path launcher, Map<String, String> variables, String... words) throws IOException {
        List<String> command = new ArrayList<>(List.of("env", "-i"));
        if (!variables.containsKey("PATH")) {
            command.add("PATH=" + System.getenv("PATH"));
        }
        variables.forEach((name, value) -> command.add(name + "=" + value));
        command.addAll(List.of("/bin/sh", launcher.toString()));
        command.addAll(List.of(words));
        try (Program program = Program.start(folder.resolve("said-" + runs++), command)) {
            return new Ended(program.awaitEnd(), program.said());
        }
    }

    /** A folder that looks like an installed Java, whose program does that. */
    private Path java(String script, String release) throws IOException {
        Path java = Files.createTempDirectory(folder, "java-");
        Path program = Files.createDirectories(java.resolve("bin")).resolve("java");
        Files.writeString(program, "#!/bin/sh\n" + script + "\n");
        Files.setPosixFilePermissions(program, PosixFilePermissions.fromString("rwxr-xr-x"));
        Files.writeString(java.resolve("release"), release);
        return java;
    }

    /** The tools that the launcher calls, and no Java. */
    private Path tools() throws IOException {
        Path tools = Files.createDirectories(folder.resolve("tools"));
        for (String tool : List.of("dirname", "readlink", "sed", "head", "printf")) {
            Files.copy(Path.of("/usr/bin", tool), tools.resolve(tool), StandardCopyOption.COPY_ATTRIBUTES);
        }
        return tools;
    }
}
