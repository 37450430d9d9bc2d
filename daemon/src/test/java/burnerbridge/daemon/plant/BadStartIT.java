package burnerbridge.daemon.plant;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.daemon.outside.Program;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.site.QuillmereWithPermits;
import java.io.IOException;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The packaged bridge started in a world that is not as it should be: what it says, that it goes on where it can, and that
 * {@code explain} says the same. Nothing here answers on any line.
 */
class BadStartIT {
    private static final Duration LONGEST = Duration.ofMinutes(2);
    /** Root passes over the rights of files; without its powers it is a user like others. */
    private static final List<String> POWERLESS =
            List.of("setpriv", "--bounding-set=-all", "--inh-caps=-all", "--no-new-privs");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final int bacnetPort = FreePorts.udp();
    private final int webPort = FreePorts.tcp();
    private final List<Program> started = new ArrayList<>();

    @SuppressWarnings("NullAway.Init")
    private Path site;

    @BeforeEach
    void writeSite() throws IOException {
        site = folder.resolve("site");
        QuillmereWithPermits.writeTo(site);
        change("port: 7001", "port: " + FreePorts.tcp());
        change("port: 1502", "port: " + FreePorts.tcp());
        change("127.0.0.1:1883", "127.0.0.1:" + FreePorts.tcp());
        change("port: 47808", "port: " + bacnetPort);
        change("\nwrite-permits:", "\nweb: {port: " + webPort + "}\nwrite-permits:");
    }

    private void change(String from, String to) throws IOException {
        Path yaml = site.resolve("site.yaml");
        String text = Files.readString(yaml);
        assertThat(text).contains(from);
        Files.writeString(yaml, text.replace(from, to));
    }

    @AfterEach
    void end() {
        started.forEach(Program::close);
    }

    private Path state() {
        return folder.resolve("state");
    }

    private Program run(List<String> before, Path state, String... options) {
        List<String> command = new ArrayList<>(before);
        List<String> words = new ArrayList<>(List.of("run", site.toString(), "--state", state.toString()));
        words.addAll(List.of(options));
        command.addAll(PackagedProgram.command(words.toArray(String[]::new)));
        Program program = Program.start(folder.resolve("log-" + started.size()), command);
        started.add(program);
        return program;
    }

    private static void awaitWords(Program program, String... words) {
        Awaitility.await().atMost(LONGEST).untilAsserted(() -> {
            assertThat(program.said()).contains(words);
        });
        assertThat(program.isAlive()).as(program.said()).isTrue();
    }

    private String explain(Path state, String... options) throws IOException, InterruptedException {
        List<String> words = new ArrayList<>(List.of("explain", site.toString(), "--state", state.toString()));
        words.addAll(List.of(options));
        return OutsideProgram.output(PackagedProgram.command(words.toArray(String[]::new)))
                .replaceAll("\\s+", " ");
    }

    /** In a mount namespace of its own, where the file system of the state folder is this one. */
    private Program runMounted(String mounting, Path state, String... options) {
        OutsideProgram.require("unshare", "util-linux");
        OutsideProgram.require("setpriv", "util-linux");
        OutsideProgram.require(System.getProperty("user.name").equals("root"), "the right to mount", "run as root");
        List<String> words = new ArrayList<>(List.of("run", site.toString(), "--state", state.toString()));
        words.addAll(List.of(options));
        String java = PackagedProgram.command(words.toArray(String[]::new)).stream()
                .map(word -> "'" + word + "'")
                .collect(Collectors.joining(" "));
        String script = mounting + " && exec " + String.join(" ", POWERLESS) + " " + java;
        Program program = Program.start(
                folder.resolve("log-" + started.size()),
                List.of("unshare", "--mount", "--propagation", "private", "sh", "-c", script));
        started.add(program);
        return program;
    }

    @Test
    void aSiteFolderWithErrorsIsRefusedAndNothingIsStarted() throws Exception {
        change("time-zone: ", "time-zone: Nowhere/");

        Program bridge = run(List.of(), state());
        assertThat(bridge.awaitEnd()).isEqualTo(2);
        assertThat(bridge.said()).contains("error: site.yaml:").contains("The bridge was not started: ");
        assertThat(state()).doesNotExist();
    }

    @Test
    void withTheOptionTheOneThatWasAcceptedLastRunsWithItsPermitsAsleep() throws Exception {
        Program first = run(List.of(), state(), "--or-last-accepted");
        awaitWords(first, "control socket ", "write permits: nothing is written: no person has approved it yet");
        assertThat(first.end()).isZero();
        change("time-zone: ", "time-zone: Nowhere/");

        Program second = run(List.of(), state(), "--or-last-accepted");
        awaitWords(
                second,
                "error: site.yaml:",
                " has 1 error, so that the bridge runs the copy that was accepted on ",
                "write permits: nothing is written, and what stood in a controller stays there",
                "device 711001 serves ");
        assertThat(explain(state()))
                .contains("from the running bridge")
                .contains("! site folder: ")
                .contains("runs the copy that was accepted on")
                .contains("nothing may be written");
        assertThat(OutsideProgram.output(PackagedProgram.command(
                        "permits", folder.resolve("state/accepted-site").toString(), "--state", state().toString())))
                .contains("runs the copy that was accepted on");
        assertThat(second.end()).isZero();
    }

    @Test
    void soItDoesWhereTheSiteFolderIsGone() throws Exception {
        Program first = run(List.of(), state());
        awaitWords(first, "control socket ");
        assertThat(first.end()).isZero();
        Files.move(site, folder.resolve("elsewhere"));

        Program second = run(List.of(), state(), "--or-last-accepted");
        awaitWords(second, "runs the copy that was accepted on ", "device 711001 serves ");
        assertThat(second.end()).isZero();
    }

    @Test
    void withTheOptionAndNoneAcceptedBeforeItIsRefusedAllTheSame() throws Exception {
        change("time-zone: ", "time-zone: Nowhere/");

        Program bridge = run(List.of(), state(), "--or-last-accepted");
        assertThat(bridge.awaitEnd()).isEqualTo(2);
        assertThat(bridge.said()).contains("none was accepted before");
    }

    @Test
    void noNetworkNoBrokerAndNoAdapterAreToldAndTriedAgain() throws Exception {
        change("bind: 127.0.0.1", "bind: 192.0.2.7");
        Path yaml = site.resolve("site.yaml");
        Files.writeString(
                yaml,
                Files.readString(yaml)
                        .replaceFirst(
                                "rtu-over-tcp: \\{[^}]*\\}",
                                "serial: {port: /dev/serial/by-id/none, baud: 19200, parity: even}"));

        Program bridge = run(List.of(), state());
        awaitWords(
                bridge,
                "WARN  line boiler-house: is not connected: /dev/serial/by-id/none",
                "WARN  line annex: is not connected: 127.0.0.1:",
                "WARN  bacnet",
                "192.0.2.7",
                "WARN  mqtt tcp://127.0.0.1:");
        String explained = explain(state());
        assertThat(explained)
                .contains("Not-ready: ")
                .containsPattern("cable wires, plugs, adapters ! line boiler-house: is not connected")
                .containsPattern("network addresses, switches, broadcasts ! ")
                .containsPattern("broker the MQTT broker and the way to it ! mqtt")
                .contains("line annex: is not connected");
        assertThat(bridge.end()).isZero();
    }

    @Test
    void portsThatOtherProgramsHaveAreToldAndTakenOnceTheyAreFree() throws Exception {
        Program bridge;
        try (DatagramSocket udp = new DatagramSocket(bacnetPort, InetAddress.getLoopbackAddress());
                ServerSocket tcp = new ServerSocket(webPort, 1, InetAddress.getLoopbackAddress())) {
            assertThat(udp.isBound() && tcp.isBound()).isTrue();
            bridge = run(List.of(), state());
            awaitWords(
                    bridge,
                    "WARN  bacnet: UDP port " + bacnetPort + " on 127.0.0.1 is taken by another program",
                    "WARN  web: 127.0.0.1 port " + webPort + " cannot be opened: ",
                    "trying again until it works");
        }
        awaitWords(bridge, "device 711001 serves ", "web: /health and /metrics at 127.0.0.1:" + webPort);
        assertThat(bridge.end()).isZero();
    }

    @Test
    void aStateFolderThatIsReadOnlyLeavesItReadingAndServingWithNothingWritable() throws Exception {
        Path state = Files.createDirectory(folder.resolve("ro"));
        Program bridge = runMounted("mount -t tmpfs -o ro,size=64k none '" + state + "'", state.resolve("state"));

        awaitWords(
                bridge,
                "ERROR state folder: the state folder " + state.resolve("state") + " cannot be used: ",
                "Read-only file system; the bridge reads and serves, writes nothing to a controller, and keeps nothing",
                "write permits: nothing is written",
                "device 711001 serves ");
        assertThat(explain(state.resolve("state")))
                .contains("from the running bridge")
                .contains("Read-only file system");
        assertThat(bridge.end()).isZero();
    }

    @Test
    void soDoesOneThatIsFull() throws Exception {
        Path state = Files.createDirectory(folder.resolve("full"));
        Program bridge = runMounted(
                "mount -t tmpfs -o size=128k none '" + state + "' && (cat /dev/zero > '" + state
                        + "/fill' 2>/dev/null || true)",
                state.resolve("state"));

        awaitWords(
                bridge,
                "ERROR state folder: the state folder " + state.resolve("state") + " cannot be used: ",
                "No space left on device; the bridge reads and serves",
                "write permits: nothing is written",
                "device 711001 serves ");
        assertThat(bridge.end()).isZero();
    }

    @Test
    void oneThatFillsUpAfterwardsShutsTheGateAtTheNextStartAndNothingElse() throws Exception {
        Path disk = Files.createDirectory(folder.resolve("filling"));
        Path state = disk.resolve("state");
        String java = PackagedProgram.command("run", site.toString(), "--state", state.toString()).stream()
                .map(word -> "'" + word + "'")
                .collect(Collectors.joining(" "));
        // The first start has room, the second has none; both see one and the same file system.
        Program bridge = runMounted(
                "mount -t tmpfs -o size=1m none '" + disk + "' && (timeout -s TERM 20 " + java
                        + " || true) && (cat /dev/zero" + " > '" + disk + "/fill' 2>/dev/null || true) && echo second",
                state);

        Awaitility.await().atMost(LONGEST).until(() -> bridge.said().contains("second\n"));
        Awaitility.await()
                .atMost(LONGEST)
                .until(() -> bridge.said()
                        .substring(bridge.said().indexOf("second\n"))
                        .contains("device 711001 serves "));
        Awaitility.await()
                .atMost(LONGEST)
                .until(() -> bridge.said()
                        .substring(bridge.said().indexOf("second\n"))
                        .contains(" KiB are left where " + state
                                + " is; where it is full nothing is written to a controller"));
        assertThat(bridge.said().substring(bridge.said().indexOf("second\n")))
                .doesNotContain("The bridge was not started")
                .doesNotContain("cannot be used");
        assertThat(bridge.end()).isZero();
    }

    @Test
    void aStateFolderOfAnotherUserIsRefusedOrWaitedFor() throws Exception {
        OutsideProgram.require("setpriv", "util-linux");
        Files.createDirectory(
                state(), PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------")));
        assertThat(OutsideProgram.output(List.of("chown", "65534:65534", state().toString())))
                .isEmpty();

        Program refused = run(POWERLESS, state());
        assertThat(refused.awaitEnd()).isEqualTo(3);
        assertThat(refused.said())
                .contains("The bridge was not started: the state folder " + state() + " cannot be used: ")
                .contains("may not be");

        Program waiting = run(POWERLESS, state(), "--keep-trying");
        awaitWords(waiting, "WARN  the bridge waits: the state folder " + state() + " cannot be used: ");
        OutsideProgram.output(List.of("chown", "0:0", state().toString()));
        awaitWords(waiting, "control socket ");
        assertThat(waiting.end()).isZero();
    }

    @Test
    void aSecondBridgeOnOneStateFolderWaitsUntilTheFirstHasEnded() throws Exception {
        Program first = run(List.of(), state());
        awaitWords(first, "control socket ");
        Program second = run(List.of(), state(), "--keep-trying");
        awaitWords(second, "WARN  the bridge waits: 'burner-bridge run' (process " + first.pid());
        assertThat(second.said()).doesNotContain("site quillmere: lines");
        assertThat(first.end()).isZero();

        awaitWords(second, "site quillmere: lines 2", "control socket ");
        assertThat(second.end()).isZero();
    }

    @Test
    void whoWaitsEndsWhenToldTo() {
        Program first = run(List.of(), state());
        awaitWords(first, "control socket ");
        Program second = run(List.of(), state(), "--keep-trying");
        awaitWords(second, "WARN  the bridge waits: ");

        second.end();
        assertThat(second.isAlive()).isFalse();
        assertThat(first.isAlive()).isTrue();
    }

    private static Path fakeTimeLibrary() throws IOException {
        try (Stream<Path> all = Files.walk(Path.of("/usr/lib"), 3)) {
            return all.filter(path -> path.endsWith("faketime/libfaketimeMT.so.1"))
                    .findFirst()
                    .orElseThrow();
        }
    }

    @Test
    void aClockThatStandsInThePastIsToldAndBelievedByNobody() throws Exception {
        OutsideProgram.require("faketime", "faketime");
        // The library itself, since its program would stand between the bridge and the signal that ends it.
        Program bridge = run(
                List.of(
                        "env",
                        "FAKETIME_DONT_FAKE_MONOTONIC=1",
                        "FAKETIME=@1970-01-02 00:00:00",
                        "LD_PRELOAD=" + fakeTimeLibrary()),
                state());

        awaitWords(
                bridge,
                "1970-01-02T00:00:",
                "WARN  clock: it says 1970-01-02T00:00:",
                "which cannot be right: each time is marked as unsure until it is set");
        assertThat(explain(state())).contains("bridge this program and its box ! clock: it says 1970-01-02T00:00:");
        assertThat(bridge.end()).isZero();
    }
}
