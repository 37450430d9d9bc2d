package burnerbridge.simulator.demo;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.ExampleSite;
import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo program as a process of its own, with a stand-in for the bridge. */
class DemoIT {
    @TempDir
    Path temporary;

    private final List<Process> started = new ArrayList<>();

    @AfterEach
    void end() {
        started.forEach(Process::destroyForcibly);
    }

    @Test
    void itEndsByItselfAfterTheSecondsAskedFor() throws Exception {
        Process demo = start("--seconds", "6");
        String said = new String(demo.getInputStream().readAllBytes(), StandardCharsets.UTF_8);

        assertThat(demo.waitFor(20, TimeUnit.SECONDS)).isTrue();
        assertThat(demo.exitValue()).as(said).isZero();
        assertThat(said)
                .contains(
                        "boiler-2: plant standby",
                        "at the end over MQTT: boiler-1, 2 of 2 points good",
                        // Its second message may be on its way.
                        "at the end over MQTT: steam-1, ",
                        "Everything is put away.")
                .doesNotContain("\u001b");
        assertThat(leftovers()).isEmpty();
    }

    @Test
    void onCtrlCItPutsEverythingAwayAndIsFine() throws Exception {
        Process demo = start();
        readUntil(demo, "boiler-2: plant standby");
        List<ProcessHandle> children = demo.children().toList();
        assertThat(children).hasSize(1);

        interrupt(demo);

        assertThat(demo.waitFor(20, TimeUnit.SECONDS)).isTrue();
        assertThat(demo.exitValue()).isZero();
        assertThat(children).noneMatch(ProcessHandle::isAlive);
        assertThat(leftovers()).isEmpty();
    }

    @Test
    void wrongArgumentsAreBadInput() throws Exception {
        assertThat(exitCode("--seconds", "0")).isEqualTo(2);
        assertThat(exitCode("--louder")).isEqualTo(2);
        assertThat(exitCode("--help")).isZero();
    }

    private int exitCode(String... arguments) throws IOException, InterruptedException {
        Process demo = start(arguments);
        demo.getInputStream().readAllBytes();
        assertThat(demo.waitFor(20, TimeUnit.SECONDS)).isTrue();
        return demo.exitValue();
    }

    private Process start(String... arguments) throws IOException {
        String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
        String classPath = System.getProperty("java.class.path");
        // A build that runs in the background passes on that interrupts are ignored; a terminal does not.
        List<String> command = new ArrayList<>(List.of(
                "env",
                "--default-signal=INT",
                java,
                "-Djava.io.tmpdir=" + temporary,
                "-Dburnerbridge.java=" + java,
                "-Dburnerbridge.daemon.classpath=" + classPath,
                "-Dburnerbridge.site=" + ExampleSite.folder(),
                "-cp",
                classPath,
                Demo.class.getName()));
        command.addAll(List.of(arguments));
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        started.add(process);
        return process;
    }

    private static void readUntil(Process demo, String text) throws IOException {
        BufferedReader reader = demo.inputReader();
        StringBuilder said = new StringBuilder();
        for (String line = reader.readLine(); line != null; line = reader.readLine()) {
            said.append(line).append('\n');
            if (line.contains(text)) {
                return;
            }
        }
        throw new AssertionError("'" + text + "' was never said: " + said);
    }

    private static void interrupt(Process process) throws IOException, InterruptedException {
        new ProcessBuilder("kill", "-INT", String.valueOf(process.pid()))
                .start()
                .waitFor();
    }

    private List<String> leftovers() throws IOException {
        try (Stream<Path> files = Files.list(temporary)) {
            return files.map(path -> path.getFileName().toString())
                    .filter(name -> !name.startsWith("hsperfdata"))
                    .toList();
        }
    }
}
