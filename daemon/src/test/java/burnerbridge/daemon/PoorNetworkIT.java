package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.Program;
import burnerbridge.model.Seed;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Between the bridge on one side, and a broker and a BACnet station on the other, is a cable that loses, delays, doubles and
 * reorders frames, and is cut and joined again. All values say of which point they are and when they were read.
 */
class PoorNetworkIT {
    private static final Path SCRIPT = OutsideProgram.file("two-networks.sh");
    /** Nothing else is in either network. */
    private static final int PORT = 47900;

    private static final String POOR = "poor lose=10 double=5 delay=0..200";
    private static final String TWICE = "poor double=100 delay=0..200";
    private static final String PERFECT = "perfect";
    private static final String CUT = "cut";
    private static final Duration POOR_FOR = Duration.ofSeconds(15);
    private static final Duration TWICE_FOR = Duration.ofSeconds(6);
    private static final Duration CUT_FOR = Duration.ofSeconds(14);
    private static final Duration JOINED_POORLY_FOR = Duration.ofSeconds(8);
    private static final Duration WATCHED = Duration.ofSeconds(4);
    /** Until both sides have everything anew once the cable is well. */
    private static final Duration WHOLE_AGAIN = Duration.ofSeconds(20);
    /** And where it was away: a connection is given up after 10 s, and tried again after pauses. */
    private static final Duration JOINED_AGAIN = Duration.ofSeconds(40);

    /** Of a shell that waits for something that may never come. */
    private static final String PAUSE = "[ ! -e " + PoorlyConnectedPlant.END + " ] || exit; sleep 0.1";

    private static final Duration STARTED = Duration.ofSeconds(120);

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final long begin = System.currentTimeMillis();

    @BeforeAll
    static void requireAll() throws IOException, InterruptedException {
        OpenBroker.require();
        OutsideProgram.require("mosquitto_sub", "mosquitto-clients");
        OutsideProgram.require("python3", "python3");
        OutsideProgram.require("ip", "iproute2");
        OutsideProgram.requireBacnetClient();
        OutsideProgram.require(
                OutsideProgram.output(List.of(SCRIPT.toString(), "true", "echo joined"))
                        .contains("joined"),
                "the right to make network namespaces",
                "allow user namespaces on this machine");
    }

    private String plant() {
        return "exec " + Path.of(System.getProperty("java.home"), "bin", "java") + " -Xmx256m -cp '"
                + System.getProperty("java.class.path") + "' " + PoorlyConnectedPlant.class.getName() + " " + folder
                + " " + begin + " " + PORT + " > " + folder.resolve("plant.log") + " 2>&1";
    }

    /** Until there is a file that says that it is over, a broker, who hears all of it, and once it is known what there is, a station. */
    private String building() throws IOException {
        Path conf = Files.writeString(
                folder.resolve("mosquitto.conf"),
                "listener 1883 0.0.0.0\nallow_anonymous true\npersistence false\nmax_queued_messages 0\nuser "
                        + System.getProperty("user.name") + "\n");
        Path script = Files.writeString(
                folder.resolve("building.sh"),
                String.join(
                        "\n",
                        "cd " + folder,
                        OpenBroker.program() + " -c " + conf + " > broker.log 2>&1 &",
                        "ours=$!",
                        "trap 'kill $ours 2>/dev/null' EXIT",
                        "until mosquitto_pub -h 127.0.0.1 -t first -m '' 2>/dev/null; do " + PAUSE + "; done",
                        "mosquitto_sub -h 127.0.0.1 -V 5 -q 1 -t 'plant/#' -F '%U %t %p' > " + HeardTopics.FILE
                                + " 2> heard.log &",
                        "ours=\"$ours $!\"",
                        "until [ -e " + PoorlyConnectedPlant.OBJECTS + " ]; do " + PAUSE + "; done",
                        "request=$(tail -n 1 " + PoorlyConnectedPlant.OBJECTS + ")",
                        "objects=$(grep ' ' " + PoorlyConnectedPlant.OBJECTS + " | cut -d ' ' -f 1 | paste -s -d ,)",
                        "node "
                                + OutsideProgram.file("patient-station.js")
                                        .toAbsolutePath()
                                        .normalize() + " 10.77.0.1:" + PORT + " 10.77.0.2 " + PORT
                                + " $objects $request 1300 > " + ToldStation.FILE + " 2> station.log &",
                        "ours=\"$ours $!\"",
                        "until [ -e " + PoorlyConnectedPlant.END + " ]; do sleep 0.1; done",
                        "timeout 5 mosquitto_sub -h 127.0.0.1 -V 5 -t 'plant/#' --retained-only -W 2 -F '%U %t %p' > "
                                + HeardTopics.RETAINED,
                        "true",
                        ""));
        return "bash " + script;
    }

    private Program start() throws IOException {
        return Program.start(
                folder.resolve("networks.log"),
                List.of(
                        "env",
                        "POOR=" + folder.resolve("cable"),
                        "SEED=" + Seed.value(),
                        SCRIPT.toAbsolutePath().normalize().toString(),
                        plant(),
                        building()));
    }

    private void become(String cable) throws IOException {
        Files.writeString(folder.resolve("cable"), cable + "\n");
    }

    private static void pass(Duration time) {
        until(time.plusSeconds(60), time, () -> true);
    }

    private static void until(Duration longest, Duration first, Callable<Boolean> is) {
        Awaitility.await()
                .pollDelay(first)
                .pollInterval(Duration.ofMillis(200))
                .atMost(longest)
                .until(is);
    }

    private long now() {
        return System.currentTimeMillis() - begin;
    }

    /** Both sides have every value as it was after this moment; says how long that took. */
    private long untilWhole(Duration longest) {
        long since = now();
        try {
            until(
                    longest,
                    Duration.ZERO,
                    () -> heard().missingSince(since).isEmpty()
                            && told().missingSince(since).isEmpty()
                            && told().isLastWriteDone(since));
        } catch (org.awaitility.core.ConditionTimeoutException e) {
            throw new AssertionError(
                    "not whole after " + longest + ": by MQTT without " + heard().missingSince(since)
                            + ", by BACnet without " + told().missingSince(since) + ", last write done: "
                            + told().isLastWriteDone(since) + "\n" + log("plant.log") + log("station.log")
                            + log("cable.said"),
                    e);
        }
        return now() - since;
    }

    private HeardTopics heard() {
        return HeardTopics.of(folder.resolve(HeardTopics.FILE), begin);
    }

    private ToldStation told() {
        return ToldStation.of(folder, begin);
    }

    private String log(String name) {
        try {
            return name + ":\n" + Files.readString(folder.resolve(name));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Test
    void nothingWrongIsTakenForGoodOverAPoorCableAndAllIsRightAgainOnceItIsWell() throws Exception {
        System.out.println("seed " + Seed.value());
        long[] took = new long[3];
        long wellFrom;
        long wellUntil;
        try (Program networks = start()) {
            try {
                until(
                        STARTED,
                        Duration.ZERO,
                        () -> Files.exists(folder.resolve(ToldStation.FILE)) || !networks.isAlive());
                assertThat(networks.isAlive()).as("%s", networks.said()).isTrue();
                took[0] = untilWhole(STARTED);
                become(POOR);
                pass(POOR_FOR);
                become(TWICE);
                pass(TWICE_FOR);
                become(PERFECT);
                took[1] = untilWhole(WHOLE_AGAIN);
                wellFrom = now();
                pass(WATCHED);
                wellUntil = now();
                become(CUT);
                pass(CUT_FOR);
                become(POOR);
                pass(JOINED_POORLY_FOR);
                become(PERFECT);
                took[2] = untilWhole(JOINED_AGAIN);
            } finally {
                Files.writeString(folder.resolve(PoorlyConnectedPlant.END), "");
                networks.awaitEnd();
            }
        }
        System.out.println("whole after ms: at first " + took[0] + ", after a poor cable " + took[1]
                + ", after a cut and a poor one " + took[2] + "; " + heard().counts() + "; " + told().counts() + "\n"
                + log("cable.said"));
        theCableWasPoor();
        assertThat(heard().wrong()).isEmpty();
        assertThat(HeardTopics.of(folder.resolve(HeardTopics.RETAINED), begin).missingSince(wellUntil))
                .isEmpty();
        assertThat(told().wrong()).isEmpty();
        assertThat(told().backwards(wellFrom, wellUntil)).isEmpty();
        everyDemandWasWrittenOnce();
    }

    /** It tells at each change what it did before; of both directions. */
    private void theCableWasPoor() {
        assertThat(log("cable.said")
                        .lines()
                        .filter(line -> line.startsWith(PERFECT + ";"))
                        .findFirst()
                        .orElseThrow())
                .doesNotContain("lost 0 ", "doubled 0 ", "overtaken 0 ");
    }

    /** Also those whose request came twice, or was followed by the next before its double came. */
    private void everyDemandWasWrittenOnce() throws IOException {
        List<Integer> demands = Files.readAllLines(folder.resolve(PoorlyConnectedPlant.DEMANDS)).stream()
                .map(Integer::valueOf)
                .toList();
        assertThat(demands).hasSizeGreaterThan(10).doesNotHaveDuplicates().isSorted();
        // The last may be written before its answer came.
        assertThat(demands).allMatch(demand -> demand >= 1000 && demand <= told().lastAsked() + 1);
    }
}
