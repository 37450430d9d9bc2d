package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteFolder;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.RealValue;
import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import burnerbridge.write.Gatehouse;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.locks.LockSupport;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The gate with real lines, real files and the invented plant, which records every frame that is no read: over RTU frames
 * and over Modbus TCP, by functions 5 and 6.
 */
class WrittenPlantIT {
    private static final Duration LONGEST = Duration.ofSeconds(120);
    private static final PointId LIMIT = id("boiler-1", "load-limit");
    private static final PointId ENABLE = id("boiler-1", "remote-enable");
    private static final PointId STEAM = id("steam-1", "load-limit");
    private static final Source.Bacnet STATION = new Source.Bacnet(0x7F000001, 47808, 0);
    private static final String PERMITS = """
            write-permits:
              - {point: boiler-1.load-limit, from: {bacnet: [127.0.0.1]}, range: 20..100, interval: 1 s, storage: volatile, function: 6, silence-after: 1 h, on-silence: write 20, reason: a test}
              - {point: boiler-1.remote-enable, from: {bacnet: [127.0.0.1]}, states: [held, released], interval: 1 s, storage: volatile, function: 5, silence-after: 1 h, on-silence: write held, reason: a test}
              - {point: steam-1.load-limit, from: {bacnet: [127.0.0.1]}, range: 25.5..100, interval: 1 s, storage: volatile, function: 6, silence-after: 1 h, on-silence: write 25.5, reason: a test}
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final BridgeClock clock = new MachineClock();
    private final StopStack started = new StopStack();

    @SuppressWarnings("NullAway.Init")
    private Quillmere plant;

    @SuppressWarnings("NullAway.Init")
    private Site site;

    @SuppressWarnings("NullAway.Init")
    private ValueTable table;

    @SuppressWarnings("NullAway.Init")
    private Gatehouse gate;

    private static PointId id(String controller, String point) {
        return new PointId(new Name(controller), new Name(point));
    }

    @BeforeEach
    void startPlant() throws IOException {
        plant = WritablePlant.start();
        WritablePlant.site(folder.resolve("site"), plant, PERMITS, "");
        startBridge();
    }

    private void startBridge() throws IOException {
        SiteFolder loaded = SiteFolder.load(folder.resolve("site"));
        assertThat(loaded.problems()).noneMatch(problem -> problem.isError());
        site = loaded.site().orElseThrow();
        table = new ValueTable(site.points(), site.owners());
        WriteSide writes = new WriteSide(site, table, clock, Files.createDirectories(folder.resolve("state")));
        gate = writes.gatehouse().orElseThrow();
        started.push(writes::close);
        LineSide lines = new LineSide(site, table, clock, LineThreads.ofThisJava(), writes.gatehouse());
        started.push(lines);
        lines.start();
        DutyThread duty = new DutyThread("write gate", writes::step, clock);
        started.push(duty);
        duty.start();
        started.push(writes::takeBack);
        until(() -> gate.desk().identitiesNow().size() == 3
                && table.reading(point(LIMIT)).isGood()
                && table.reading(point(STEAM)).isGood());
    }

    @AfterEach
    void close() {
        started.close();
        plant.close();
    }

    private static void until(Callable<Boolean> is) {
        Awaitility.await()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(20))
                .atMost(LONGEST)
                .until(is);
    }

    private SitePoint point(PointId id) {
        return site.points().stream()
                .filter(point -> point.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private Decision ask(PointId point, String value) {
        return gate.ask(new Ask(point, new Wanted.Number(new BigDecimal(value)), 8, STATION));
    }

    /** Asks until the interval since the start has passed. */
    private void admitted(PointId point, String value) {
        until(() -> ask(point, value) instanceof Decision.Admitted);
    }

    private int frames() {
        return plant.names().stream()
                .mapToInt(name -> plant.written(name).size())
                .sum();
    }

    private boolean says(PointId id, String value) {
        return table.reading(point(id)).value() instanceof RealValue real
                && real.exact().compareTo(new BigDecimal(value)) == 0;
    }

    private void approve() throws Exception {
        assertThat(gate.approve("a person", Optional.empty(), Duration.ofSeconds(30), LockSupport::parkNanos))
                .isTrue();
    }

    @Test
    void whatIsNotApprovedIsNotWrittenAndWhatIsIsWrittenOnce() throws Exception {
        assertThat(ask(LIMIT, "60"))
                .isInstanceOfSatisfying(
                        Decision.Refused.class,
                        refused -> assertThat(refused.question()).isEqualTo(Question.APPROVED));
        approve();
        admitted(LIMIT, "60.5");
        until(() -> says(LIMIT, "60.5"));
        admitted(STEAM, "70");
        until(() -> says(STEAM, "70"));
        admitted(ENABLE, "0");
        until(() -> plant.written(Quillmere.BOILER_1).size() == 2);
        assertThat(frames()).isEqualTo(3);
        for (PointId never : new PointId[] {id("boiler-1", "high-limit"), id("boiler-1", "set-point")}) {
            assertThat(ask(never, "50"))
                    .isInstanceOfSatisfying(
                            Decision.Refused.class,
                            refused -> assertThat(refused.question()).isEqualTo(Question.PERMIT));
        }
        assertThat(frames()).isEqualTo(3);
    }

    @Test
    void anApprovalThatIsWithdrawnTakesBackWhatStands() throws Exception {
        approve();
        admitted(LIMIT, "60");
        until(() -> says(LIMIT, "60"));
        assertThat(gate.withdraw("a person", Duration.ofSeconds(30), LockSupport::parkNanos))
                .isTrue();
        until(() -> says(LIMIT, "20"));
        assertThat(ask(LIMIT, "60")).isInstanceOf(Decision.Refused.class);
        assertThat(frames()).isEqualTo(2);
    }

    @Test
    void aBridgeThatEndsTakesBackWhatStandsAndBeginsWithWhatWasApproved() throws Exception {
        approve();
        admitted(LIMIT, "60");
        admitted(STEAM, "70");
        until(() -> says(LIMIT, "60") && says(STEAM, "70"));
        started.close();
        assertThat(plant.written(Quillmere.BOILER_1)).hasSize(2);
        assertThat(plant.written(Quillmere.STEAM_1)).hasSize(2);
        startBridge();
        assertThat(gate.isApproved()).isTrue();
        assertThat(says(LIMIT, "20")).isTrue();
        assertThat(gate.desk().memoryOf(LIMIT).owed()).isFalse();
        assertThat(gate.desk().memoryOf(STEAM).owed()).isFalse();
        admitted(LIMIT, "55");
        until(() -> says(LIMIT, "55"));
        assertThat(plant.written(Quillmere.BOILER_1)).hasSize(3);
    }
}
