package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.problem.Problem;
import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.model.Seed;
import burnerbridge.simulator.device.WrittenFrame;
import burnerbridge.site.Site;
import burnerbridge.write.audit.AuditReport;
import burnerbridge.write.audit.AuditVerifier;
import burnerbridge.write.store.FolderDisk;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;

/**
 * Seeded asks, legal ones and mutants of them, by both doors of the whole bridge at once, before units that would take
 * anything, count every frame, and misbehave toward one write in ten. {@code -Dasks=…} says how many; a million take some
 * minutes.
 */
class ManyAsksIT {
    private static final int ASKS = Integer.getInteger("asks", 20_000);
    /** Of them so many by MQTT. */
    private static final int ONE_IN = 8;
    /** At least so many were written. */
    private static final int ENOUGH = Math.min(1_000, ASKS / 200);

    private static final Duration LONGEST = Duration.ofSeconds(180);

    private final StopStack started = new StopStack();
    private final AskLedger ledger = new AskLedger();
    private final Logger log = (Logger) LoggerFactory.getLogger("burnerbridge");
    private final Level level = log.getLevel();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private ManyUnits plant;

    @BeforeAll
    static void require() {
        OpenBroker.require();
    }

    @AfterEach
    void close() {
        started.close();
        log.setLevel(level);
    }

    private static void until(Callable<Boolean> is) {
        Awaitility.await()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(50))
                .atMost(LONGEST)
                .until(is);
    }

    private Site startBridge(int bacnetPort, int brokerPort) throws Exception {
        Path siteFolder = Files.createDirectories(folder.resolve("site"));
        plant.writeSite(siteFolder, bacnetPort, brokerPort);
        WholeBridge.command("check", siteFolder.toString(), "--bind");
        assertThat(SiteFolder.load(siteFolder).problems()).noneMatch(Problem::isError);
        Path stateFolder = folder.resolve("state");
        Site site = WholeBridge.start(siteFolder, stateFolder, started);
        until(() -> WholeBridge.isApproved(siteFolder, stateFolder));
        return site;
    }

    @Test
    void onlyWhatWasAdmittedIsOnTheWireAndEverybodyIsToldTheTruth() throws Exception {
        plant = new ManyUnits(Seed.value());
        started.push(plant);
        int bacnetPort = FreePorts.udp();
        int brokerPort = FreePorts.tcp();
        started.push(OpenBroker.start(folder, brokerPort));
        Site site = startBridge(bacnetPort, brokerPort);
        try (HandMadeStation station = new HandMadeStation(bacnetPort);
                AsksByMqtt byMqtt = new AsksByMqtt(plant, ledger, brokerPort, Seed.value() + 1)) {
            AsksByBacnet byBacnet = new AsksByBacnet(plant, ledger, site, station, Seed.value() + 2);
            bothAtOnce(byBacnet, byMqtt);
            assertThat(byMqtt.awaitAnswers(Duration.ofSeconds(100)))
                    .as("no answer over MQTT to %s; %s", byMqtt.unanswered(), ledger.counts())
                    .isTrue();
        }
        log.setLevel(level);
        assertThat(ledger.wrong()).isEmpty();
        assertThat(ledger.counted("bacnet admitted")).isPositive();
        assertThat(plant.frames()).as("%s", ledger.counts()).hasSizeGreaterThanOrEqualTo(ENOUGH);
        everyFrameWasAdmitted();
        whatWasSaidToBeWrittenWas();
        theAuditIsWhole();
        System.out.println(ledger.counts() + ", frames " + plant.frames().size());
    }

    private void bothAtOnce(AsksByBacnet byBacnet, AsksByMqtt byMqtt) throws Exception {
        ExecutorService two = Executors.newFixedThreadPool(2);
        try {
            Future<?> bacnet = two.submit(() -> {
                for (int i = 0; i < ASKS - ASKS / ONE_IN || plant.frames().size() < ENOUGH; i++) {
                    byBacnet.one();
                }
                return null;
            });
            Future<?> mqtt = two.submit(() -> {
                for (int i = 0; i < ASKS / ONE_IN; i++) {
                    byMqtt.one();
                }
                return null;
            });
            bacnet.get();
            mqtt.get();
        } finally {
            two.shutdownNow();
        }
    }

    private void everyFrameWasAdmitted() {
        List<String> outside = new ArrayList<>();
        for (WrittenFrame frame : plant.frames()) {
            byte[] bytes = frame.bytes();
            boolean load = bytes.length == 12 && bytes[7] == 6;
            boolean enable = bytes.length == 12 && bytes[7] == 5;
            AskTarget target = new AskTarget(frame.unit(), load);
            int word = bytes.length == 12 ? (bytes[10] & 0xFF) << 8 | bytes[11] & 0xFF : -1;
            int register = enable ? word >> 8 & 1 : word;
            boolean permitted = (load || enable)
                    && frame.unit() <= ManyUnits.PERMITTED
                    && ((bytes[8] & 0xFF) << 8 | bytes[9] & 0xFF) == target.address()
                    && (load ? word >= AskTarget.LOWEST && word <= AskTarget.HIGHEST : word == 0 || word == 0xFF00);
            if (!permitted || !(register == target.silent() || ledger.mayHaveLeft(target, register))) {
                outside.add(frame.unit() + ": " + frame);
            }
        }
        assertThat(outside).isEmpty();
    }

    private void whatWasSaidToBeWrittenWas() {
        for (Map.Entry<AskTarget, Set<Integer>> said : ledger.saidToBeWritten().entrySet()) {
            AskTarget target = said.getKey();
            List<Integer> done = plant.frames().stream()
                    .filter(frame -> frame.unit() == target.unit()
                            && frame.done()
                            && frame.bytes()[7] == (target.load() ? 6 : 5))
                    .map(frame -> target.load()
                            ? (frame.bytes()[10] & 0xFF) << 8 | frame.bytes()[11] & 0xFF
                            : frame.bytes()[10] & 1)
                    .toList();
            assertThat(done)
                    .as("what unit %d took of %s", target.unit(), target.row())
                    .containsAll(said.getValue());
        }
    }

    private void theAuditIsWhole() throws IOException {
        // Counted first: the bridge goes on, and each of these was recorded before it left.
        int frames = plant.frames().size();
        int[] intents = {0};
        try (FolderDisk disk = new FolderDisk(FolderDisk.in(folder.resolve("state")))) {
            AuditReport report = new AuditVerifier(disk).verify(record -> {
                if (record.kind().equals("intent")) {
                    intents[0]++;
                }
            });
            assertThat(report.findings()).isEmpty();
            // Of very many asks the oldest records have gone with their files.
            if (report.first() == 1) {
                assertThat(intents[0]).isGreaterThanOrEqualTo(frames);
            }
        }
    }
}
