package burnerbridge.daemon.plant;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteFolder;
import burnerbridge.line.Lines;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Quality;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.RunningClock;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.LinePoller;
import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import burnerbridge.values.ValueForm;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every point of the example site, read by the bridge from the plant standing still, against what the plant
 * itself has. The plant encodes by its own register tables, the bridge decodes by the point lists, and the
 * table between them is written by hand.
 */
class ExampleSiteIT {
    private static final Duration LONGEST = Duration.ofSeconds(180);

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private FrozenPlant frozen;

    private final List<LinePoller> pollers = new ArrayList<>();

    @BeforeEach
    void start() throws IOException {
        frozen = new FrozenPlant();
    }

    @AfterEach
    void close() {
        pollers.forEach(LinePoller::close);
        frozen.close();
    }

    @Test
    void everyPointSaysWhatThePlantHasOverTheSerialLineAndTcp() throws IOException {
        frozen.firingAndLockedOut();

        compare(read(frozen.site(folder)));
    }

    @Test
    void everyPointSaysWhatThePlantHasThroughTheSecondDoor() throws IOException {
        frozen.startingAndOnOil();

        compare(read(frozen.siteBehindTheSecondDoor(folder)));
    }

    private ValueTable read(Path site) {
        SiteFolder loaded = SiteFolder.load(site);
        assertThat(loaded.problems()).noneMatch(problem -> problem.isError() || problem.isWarning());
        Site found = loaded.site().orElseThrow();
        BridgeClock clock = new RunningClock();
        ValueTable table = new ValueTable(found.points(), found.controllers());
        for (LinePlan plan : LinePlan.all(found.lines(), found.points())) {
            pollers.add(new LinePoller(plan, Lines.transport(plan.line(), clock), table, clock));
        }
        Awaitility.await()
                .pollInSameThread()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(1))
                .atMost(LONGEST)
                .until(() -> {
                    pollers.forEach(LinePoller::step);
                    return table.points().stream()
                            .filter(point -> !point.definition().isDerived())
                            .allMatch(point -> table.reading(point).reason() != Reason.NOT_READ_YET);
                });
        return table;
    }

    private void compare(ValueTable table) {
        assertThat(table.points()).hasSizeGreaterThan(300);
        List<String> wrong = new ArrayList<>();
        for (SitePoint point : table.points()) {
            if (!point.definition().isDerived()) {
                difference(point, table.reading(point)).ifPresent(wrong::add);
            }
        }
        assertThat(wrong).as("points that say something else than the plant").isEmpty();
    }

    private java.util.Optional<String> difference(SitePoint point, Reading reading) {
        String type = point.controller().type().name().text();
        String name = point.definition().name().text();
        BoilerState state = frozen.state(point.controller().name().text());
        Object expected = HandTable.expected(type, name, state);
        Object said = said(point, reading);
        return isSame(type, name, expected, said)
                ? java.util.Optional.empty()
                : java.util.Optional.of(
                        point.controller().name() + "." + name + ": plant " + expected + ", bridge " + said);
    }

    private static Object said(SitePoint point, Reading reading) {
        if (reading.reason() == Reason.NO_SENSOR) {
            return HandTable.NO_SENSOR;
        }
        if (reading.reason() == Reason.NOT_APPLICABLE) {
            return HandTable.NOT_APPLICABLE;
        }
        if (reading.quality() != Quality.GOOD || reading.value() == null) {
            return reading.reason();
        }
        Object json = ValueForm.json(reading.value(), point.definition().states());
        return json instanceof Map<?, ?> state ? String.valueOf(state.get("text")) : json;
    }

    private static boolean isSame(String type, String name, Object expected, Object said) {
        if (expected instanceof Double number && said instanceof BigDecimal read) {
            double most = HandTable.tolerance(type, name, number);
            return Math.abs(number - read.doubleValue()) <= most;
        }
        if (expected instanceof Instant at) {
            // The old controller keeps no seconds of its faults.
            boolean seconds = !type.equals("hot-water-old") || name.equals("clock");
            LocalDateTime local = LocalDateTime.ofInstant(at, ZoneId.of("Europe/Lisbon"))
                    .truncatedTo(seconds ? ChronoUnit.SECONDS : ChronoUnit.MINUTES);
            return said instanceof String text && LocalDateTime.parse(text).equals(local);
        }
        return expected.equals(said);
    }
}
