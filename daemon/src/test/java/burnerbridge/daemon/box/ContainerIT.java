package burnerbridge.daemon.box;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.daemon.outside.Program;
import burnerbridge.daemon.plant.FrozenPlant;
import burnerbridge.outside.OutsideProgram;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.awaitility.Awaitility;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/**
 * The image that is made of the archive, run by the command of the unit in it on the example site: one line on a
 * pseudo-terminal, one on TCP, a broker, and programs that others wrote on the building side.
 */
class ContainerIT {
    private static final Duration LONGEST = Duration.ofSeconds(90);
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final String IMAGE = "localhost/burner-bridge-test:" + PackedArchive.version();
    private static final String RUN = Long.toString(ProcessHandle.current().pid());
    private static final String NAME = "burner-bridge-test-" + RUN;
    private static final String VOLUME = "burner-bridge-test-state-" + RUN;
    private static final String USER = "10001";
    /** Of devices, the group that the drop-in of the archive adds. */
    private static final String DIALOUT = "20";

    private static final Pattern COMPARED =
            Pattern.compile("compared by hand: (\\d+) points over MQTT, (\\d+) over BACnet; (\\d+) differ");
    /** A key or certificate in PEM, and not only the words that one begins with, which the program knows. */
    private static final Pattern KEY = Pattern.compile("-----BEGIN [A-Z0-9 ]+-----\\s+[A-Za-z0-9+/=]{40}");

    private static final Pattern PTY = Pattern.compile("PTY is (\\S+)");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private static Path shared;

    @SuppressWarnings("NullAway.Init")
    private static Containers containers;

    @SuppressWarnings("NullAway.Init")
    private static Path archive;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final int brokerPort = FreePorts.tcp();
    private final int bacnetPort = FreePorts.udp();

    @SuppressWarnings("NullAway.Init")
    private FrozenPlant frozen;

    private @Nullable Program broker;
    private @Nullable Program cable;
    private @Nullable Program bridge;
    private @Nullable String pty;

    @BeforeAll
    static void build() throws IOException {
        OutsideProgram.onlyOnce();
        Containers.require();
        OutsideProgram.require("socat", "socat");
        OutsideProgram.require("mosquitto", "mosquitto");
        OutsideProgram.require("mosquitto_sub", "mosquitto-clients");
        OutsideProgram.require("mbpoll", "mbpoll");
        OutsideProgram.require("ss", "iproute2");
        OutsideProgram.require("systemd-analyze", "systemd");
        OutsideProgram.requireBacnetClient();
        archive = PackedArchive.unpacked(shared.resolve("unpacked"));
        containers = new Containers(Path.of("target", "containers").toAbsolutePath());
        containers.build(archive, IMAGE, PackedArchive.version());
    }

    @AfterAll
    static void takeAway() {
        if (containers != null) {
            containers.remove(IMAGE);
        }
    }

    @BeforeEach
    void start() throws IOException {
        frozen = new FrozenPlant();
        frozen.firingAndLockedOut();
    }

    @AfterEach
    void end() {
        containers.ends("rm", "--force", "--volumes", "--time=5", NAME);
        containers.ends("volume", "rm", "--force", VOLUME);
        Stream.of(bridge, cable, broker).forEach(program -> {
            if (program != null) {
                program.close();
            }
        });
        frozen.close();
    }

    @Test
    void theImageHoldsTheBridgeItsJavaAndNothingToWorkWith() throws Exception {
        List<TarArchiveEntry> entries = new ArrayList<>();
        List<String> keys = new ArrayList<>();
        containers.podman("create", "--name=" + NAME, IMAGE);
        Path tar = folder.resolve("image.tar");
        containers.podman("export", "--output=" + tar, NAME);
        try (TarArchiveInputStream files =
                new TarArchiveInputStream(new BufferedInputStream(Files.newInputStream(tar)))) {
            for (TarArchiveEntry entry = files.getNextEntry(); entry != null; entry = files.getNextEntry()) {
                entries.add(entry);
                if (entry.isFile()
                        && KEY.matcher(new String(files.readAllBytes(), StandardCharsets.ISO_8859_1))
                                .find()) {
                    keys.add(entry.getName());
                }
            }
        }
        List<TarArchiveEntry> bridge = entries.stream()
                .filter(entry ->
                        !entry.getName().matches("(dev|proc|sys|run)(/.*)?|etc/(hosts|hostname|resolv.conf|mtab)"))
                .toList();

        assertThat(bridge).noneMatch(entry -> (entry.getMode() & 06000) != 0);
        assertThat(names(bridge.stream().filter(entry -> !entry.isSymbolicLink() && (entry.getMode() & 0002) != 0)))
                .as("what everybody may write")
                .containsExactly("tmp/");
        assertThat(names(bridge.stream().filter(entry -> entry.getLongUserId() != 0)))
                .as("what is not root's")
                .containsExactly("var/lib/burner-bridge/");
        assertThat(names(bridge.stream()
                        .filter(entry -> entry.isFile() && !entry.isSymbolicLink() && (entry.getMode() & 0111) != 0)
                        .filter(entry -> !entry.getName().matches(".*\\.so(\\.\\d+)*"))))
                .as("programs")
                .containsExactly("opt/burner-bridge/java/bin/java");
        assertThat(names(bridge.stream()
                        .filter(TarArchiveEntry::isFile)
                        .filter(entry -> entry.getName().matches("(etc|home|root|usr|var|bin|sbin|tmp)/.*"))
                        .filter(entry -> !entry.getName().matches(".*\\.so(\\.\\d+)*"))))
                .as("the system: no shell, no packages, nothing of who made it")
                .containsExactly("etc/group", "etc/nsswitch.conf", "etc/passwd");
        assertThat(keys).as("keys and certificates").isEmpty();
    }

    @Test
    void theImageSaysWhatItIsAndRunsAsNobodyElse() {
        JsonNode image = JSON.readTree(containers.podman("image", "inspect", IMAGE))
                .get(0)
                .path("Config");

        assertThat(image.path("User").asString()).isEqualTo(USER + ":" + USER);
        assertThat(image.path("StopSignal").asString()).isEqualTo("SIGTERM");
        assertThat(image.path("Volumes").propertyNames()).containsExactly("/var/lib/burner-bridge");
        assertThat(image.path("ExposedPorts").isEmpty()).isTrue();
        assertThat(image.path("Entrypoint").get(0).asString()).isEqualTo("/opt/burner-bridge/java/bin/java");
        JsonNode labels = image.path("Labels");
        assertThat(labels.path("org.opencontainers.image.version").asString()).isEqualTo(PackedArchive.version());
        assertThat(labels.path("org.opencontainers.image.licenses").asString()).isEqualTo("GPL-3.0-or-later");
    }

    @Test
    void aServiceManagerFindsNothingWrongWithTheUnitAndWhatIsDroppedBesideIt() throws Exception {
        Path shipped = archive.resolve("container");
        Path unit = Files.copy(
                shipped.resolve("burner-bridge-container.service"), folder.resolve("burner-bridge-container.service"));
        Path beside = Files.createDirectory(folder.resolve("burner-bridge-container.service.d"));
        Files.copy(shipped.resolve("serial.conf"), beside.resolve("serial.conf"));

        String said = containers.run(List.of("systemd-analyze", "verify", unit.toString()));

        assertThat(said.lines()).noneMatch(line -> line.contains("burner-bridge"));
    }

    @Test
    void everyPointComesToTheBuildingFromAContainerThatMayDoNothingElse() throws Exception {
        startBroker();
        plugCableIn();
        Path site = site();
        Program running = startBridge();
        compareThreeWays(site);

        long process = process();
        Path root = Path.of("/proc", Long.toString(process));
        String status = Files.readString(root.resolve("status"));
        assertThat(field(status, "Uid")).isEqualTo("10001 10001 10001 10001");
        assertThat(field(status, "Gid")).isEqualTo("10001 10001 10001 10001");
        assertThat(field(status, "Groups").split(" ")).containsExactlyInAnyOrder(DIALOUT, USER);
        for (String set : List.of("CapInh", "CapPrm", "CapEff", "CapBnd", "CapAmb")) {
            assertThat(field(status, set)).as(set).isEqualTo("0000000000000000");
        }
        assertThat(field(status, "NoNewPrivs")).isEqualTo("1");
        assertThat(field(status, "Seccomp")).as("2: a filter of system calls").isEqualTo("2");
        assertThat(Containers.processesBeside(process)).as("processes in it").containsExactly(process);
        assertThat(Files.readString(root.resolve("maps")))
                .as("the classes that were loaded when it was made")
                .contains("/opt/burner-bridge/classes.jsa");

        assertThat(memoryLimit(root)).isEqualTo(160L * 1024 * 1024);

        // The pseudo-terminals are there for the line of this test.
        assertThat(mounts(root).stream().filter(mount -> mount.startsWith("rw ")))
                .containsExactlyInAnyOrder("rw /var/lib/burner-bridge", "rw /tmp", "rw /dev/pts");
        assertThat(Files.readString(root.resolve("mountinfo"))).containsPattern(" /tmp rw,[^ ]*noexec");
        assertThat(writable(process)).containsExactlyInAnyOrder("/tmp", "/var/lib/burner-bridge");
        assertThat(sockets(process))
                .containsExactlyInAnyOrder("udp 127.0.0.1:" + bacnetPort, "udp 127.255.255.255:" + bacnetPort);

        long before = System.nanoTime();
        assertThat(running.end()).as(running.said()).isZero();
        assertThat(Duration.ofNanos(System.nanoTime() - before)).isLessThan(Duration.ofSeconds(5));
        assertThat(running.said().strip()).endsWith("ended");
        assertThat(link().path("state").asString()).isEqualTo("down");
    }

    @Test
    void whatAPersonApprovedIsKeptWhenItIsKilledAndStartedAgain() throws Exception {
        startBroker();
        plugCableIn();
        Path yaml = site().resolve("site.yaml");
        Files.writeString(yaml, Files.readString(yaml).replaceFirst("(?m)^write-permits: \\[\\].*$", """
                write-permits:
                  - point: boiler-1.load-limit
                    from: {mqtt: true}
                    range: 20..90
                    step: 10
                    interval: 60 s
                    storage: volatile
                    function: 6
                    silence-after: 15 min
                    on-silence: write 20
                    reason: the plant's optimiser limits the load in summer"""));
        Program first = startBridge();
        awaitLink("up");
        assertThat(once(0, "permits", "--approve", "a person", "/etc/burner-bridge/site"))
                .contains("Approved by a person");
        String read = bacnet("8:711001", "77");

        containers.podman("kill", "--signal=KILL", NAME);
        assertThat(first.awaitEnd()).isEqualTo(137);
        awaitLink("down");

        Program second = startBridge();
        awaitLink("up");
        assertThat(bacnet("8:711001", "77")).isEqualTo(read);
        Awaitility.await()
                .atMost(LONGEST)
                .untilAsserted(() -> assertThat(once(0, "permits", "/etc/burner-bridge/site"))
                        .contains("Approved: the bridge may write this and nothing else."));
        assertThat(once(0, "permits", "--audit", "/etc/burner-bridge/site")).contains("Nothing is wrong");
        assertThat(second.end()).as(second.said()).isZero();
    }

    @Test
    void aSiteWithAnErrorEndsItWithACodeThatTheUnitDoesNotTryAgain() throws Exception {
        Path yaml = site().resolve("site.yaml");
        Files.writeString(yaml, Files.readString(yaml) + "nonsense: 1\n");

        Program running = startBridge();

        assertThat(running.awaitEnd()).as(running.said()).isEqualTo(2);
        assertThat(running.said()).contains("site.yaml").contains("nonsense");
        assertThat(Files.readString(archive.resolve("container/burner-bridge-container.service")))
                .contains("RestartPreventExitStatus=2");
    }

    private Program startBridge() throws IOException {
        Program program = Program.start(folder.resolve("bridge-" + System.nanoTime()), command("--memory=160m"));
        bridge = program;
        return program;
    }

    /** The unit's own command, but for names, folders and the image, and with a line on a pseudo-terminal. */
    private List<String> command(String memory) throws IOException {
        Path shipped = archive.resolve("container");
        List<String> words = new ShippedUnit(
                        shipped.resolve("burner-bridge-container.service"), shipped.resolve("serial.conf"))
                .words();
        assertThat(words.subList(0, 2)).containsExactly("/usr/bin/podman", "run");
        assertThat(words).contains(memory);
        assertThat(words.get(words.size() - 1)).isEqualTo("localhost/burner-bridge:" + PackedArchive.version());
        List<String> mapped = new ArrayList<>(words.subList(1, words.size() - 1).stream()
                .map(word -> word.replace("--name=burner-bridge", "--name=" + NAME)
                        .replace("burner-bridge-state:", VOLUME + ":")
                        .replace("=/etc/burner-bridge:", "=" + folder.resolve("etc") + ":"))
                .toList());
        mapped.add("--volume=/dev/pts:/dev/pts");
        mapped.add(IMAGE);
        return Containers.podman(mapped);
    }

    /** Another command, in a container of its own beside the bridge, with the same folders. */
    private String once(int code, String... words) throws IOException {
        List<String> command = new ArrayList<>(command("--memory=160m"));
        command.replaceAll(word -> word.replace("--name=" + NAME, "--name=" + NAME + "-once"));
        command.addAll(List.of(words));
        try (Program program = Program.start(containers.log(), command)) {
            assertThat(program.awaitEnd()).as(program.said()).isEqualTo(code);
            return program.said();
        }
    }

    private Path site() throws IOException {
        Path site = folder.resolve("etc/site");
        if (pty == null) {
            frozen.siteForAll(site, brokerPort, bacnetPort);
        } else {
            frozen.siteOnASerialPort(site, Path.of(pty), brokerPort, bacnetPort);
        }
        containers.run(List.of("chown", "-R", "0:" + USER, folder.resolve("etc").toString()));
        containers.run(
                List.of("chmod", "-R", "u=rwX,g=rX,o=", folder.resolve("etc").toString()));
        return site;
    }

    private void startBroker() throws IOException {
        Path settings = Files.writeString(
                folder.resolve("mosquitto.conf"),
                "listener " + brokerPort + " 127.0.0.1\nallow_anonymous true\npersistence false\nuser root\n");
        broker = Program.start(folder.resolve("broker.log"), List.of("mosquitto", "-c", settings.toString()));
    }

    /** A serial port of the group of such ports, whose other end is the boiler house. */
    private void plugCableIn() {
        Program socat = Program.start(
                folder.resolve("cable.log"),
                List.of(
                        "socat",
                        "-d",
                        "-d",
                        "pty,raw,echo=0,mode=660,ignoreeof,group=" + DIALOUT,
                        "tcp:127.0.0.1:" + frozen.plant.boilerHousePort()));
        cable = socat;
        Awaitility.await().atMost(LONGEST).until(() -> socat.said().contains("starting data transfer loop"));
        Matcher matcher = PTY.matcher(socat.said());
        assertThat(matcher.find()).as(socat.said()).isTrue();
        pty = matcher.group(1);
    }

    private void compareThreeWays(Path site) {
        Awaitility.await().atMost(LONGEST).pollInterval(Duration.ofSeconds(2)).untilAsserted(() -> {
            assertThat(Objects.requireNonNull(bridge).isAlive())
                    .as(bridge.said())
                    .isTrue();
            try (Program script = Program.start(
                    containers.log(),
                    List.of(
                            "python3",
                            OutsideProgram.file("three-ways.py").toString(),
                            site.toString(),
                            Integer.toString(frozen.plant.secondDoorPort()),
                            Integer.toString(brokerPort),
                            Integer.toString(bacnetPort),
                            Integer.toString(FreePorts.udp())))) {
                script.awaitEnd();
                Matcher compared = COMPARED.matcher(script.said());
                assertThat(compared.find()).as(script.said()).isTrue();
                assertThat(compared.group(3)).as(script.said()).isEqualTo("0");
                assertThat(Integer.parseInt(compared.group(1))).isGreaterThan(300);
                assertThat(Integer.parseInt(compared.group(2))).isGreaterThan(200);
            }
        });
    }

    private long process() {
        return Long.parseLong(
                containers.podman("inspect", "--format={{.State.Pid}}", NAME).strip());
    }

    private void awaitLink(String state) {
        Program running = Objects.requireNonNull(bridge);
        Awaitility.await()
                .atMost(LONGEST)
                .failFast(() -> assertThat(state.equals("down") || running.isAlive())
                        .as(running.said())
                        .isTrue())
                .untilAsserted(() -> assertThat(link().path("state").asString())
                        .as(running.said())
                        .isEqualTo(state));
    }

    /** The bridge's own link, as the broker has it. */
    private JsonNode link() {
        String told = containers.run(List.of(
                "sh",
                "-c",
                "mosquitto_sub \"$@\" || true",
                "sh",
                "-h",
                "127.0.0.1",
                "-p",
                Integer.toString(brokerPort),
                "-t",
                "plant/quillmere/_self/link",
                "-C",
                "1",
                "-W",
                "5"));
        return told.startsWith("{") ? JSON.readTree(told) : JSON.createObjectNode();
    }

    private String bacnet(String object, String property) {
        return containers.run(List.of(
                "node",
                OutsideProgram.file("bacnet-client.js").toString(),
                "127.0.0.1:" + bacnetPort,
                Integer.toString(FreePorts.udp()),
                "read",
                object,
                property));
    }

    /** In bytes, of either generation of control groups. */
    private static long memoryLimit(Path process) throws IOException {
        for (String group : Files.readAllLines(process.resolve("cgroup"))) {
            String[] parts = group.split(":", 3);
            Path first = Path.of("/sys/fs/cgroup/memory" + parts[2], "memory.limit_in_bytes");
            Path second = Path.of("/sys/fs/cgroup" + parts[2], "memory.max");
            if (parts[1].equals("memory") && Files.exists(first)) {
                return Long.parseLong(Files.readString(first).strip());
            }
            if (parts[1].isEmpty() && Files.exists(second)) {
                return Long.parseLong(Files.readString(second).strip());
            }
        }
        throw new AssertionError("no limit of memory: " + Files.readString(process.resolve("cgroup")));
    }

    /** Every mount but those of the kernel's own tables: how, and where. */
    private static Set<String> mounts(Path process) throws IOException {
        Set<String> mounts = new TreeSet<>();
        for (String line : Files.readAllLines(process.resolve("mountinfo"))) {
            String[] words = line.split(" ");
            if (!words[4].matches("/(proc|sys)(/.*)?")) {
                mounts.add(words[5].replaceAll(",.*", "") + " " + words[4]);
            }
        }
        return mounts;
    }

    /** Folders and files that its user may write, but for what lies in the state folder. */
    private Set<String> writable(long process) {
        String root = "/proc/" + process + "/root";
        String found = containers.run(List.of(
                "setpriv",
                "--reuid=" + USER,
                "--regid=" + USER,
                "--groups=" + DIALOUT,
                "find",
                root + "/",
                "(",
                "-path",
                root + "/proc",
                "-o",
                "-path",
                root + "/sys",
                "-o",
                "-path",
                root + "/var/lib/burner-bridge/*",
                ")",
                "-prune",
                "-o",
                "(",
                "-type",
                "d",
                "-o",
                "-type",
                "f",
                ")",
                "-writable",
                "-print"));
        Set<String> writable = new TreeSet<>();
        found.lines().forEach(line -> writable.add(line.replace(root, "")));
        return writable;
    }

    /** What it has open for others to send to. */
    private List<String> sockets(long process) {
        List<String> open = new ArrayList<>();
        containers.run(List.of("ss", "-H", "-tulpn")).lines().forEach(line -> {
            if (line.contains("pid=" + process + ",")) {
                String[] words = line.split("\\s+");
                open.add(words[0] + " " + words[4].replaceAll("^\\[::ffff:([0-9.]+)]", "$1"));
            }
        });
        return open;
    }

    private static String field(String status, String name) {
        Matcher matcher = Pattern.compile("(?m)^" + name + ":\\s*(.*?)\\s*$").matcher(status);
        assertThat(matcher.find()).as(name).isTrue();
        return matcher.group(1).replaceAll("\\s+", " ");
    }

    private static List<String> names(Stream<TarArchiveEntry> entries) {
        return entries.map(TarArchiveEntry::getName).sorted().toList();
    }
}
