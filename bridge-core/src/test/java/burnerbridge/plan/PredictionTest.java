package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import burnerbridge.model.Seed;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Limits;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.ReadRules;
import burnerbridge.site.Scaling;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** At 19,200 baud without a turnaround, by hand: ten registers take 22.917 ms, one 12.604 ms, each 1.146 ms. */
class PredictionTest {
    private static final Duration SECOND = Duration.ofSeconds(1);

    private static LineDefinition line(int baud) {
        return new LineDefinition(
                new Name("annex"), new LineDefinition.RtuOverTcp("127.0.0.1", 7001, baud), SECOND, SECOND);
    }

    private static PointDefinition[] run(int first, int count, Duration every) {
        return IntStream.range(first, first + count)
                .mapToObj(wire -> Points.every("p-" + wire, wire, every))
                .toArray(PointDefinition[]::new);
    }

    private static Prediction predict(int baud, ControllerDefinition... controllers) {
        return Prediction.of(LinePlan.of(line(baud), Points.of(controllers), Turnarounds.all(Duration.ZERO)));
    }

    private static double millis(Prediction.Load load) {
        return load.scan().toNanos() / 1e6;
    }

    private static Prediction.Load of(Prediction prediction, ControllerDefinition controller) {
        return Optional.ofNullable(prediction.controllers().get(controller)).orElseThrow();
    }

    @Test
    void aLineTakesWhatItsControllersTake() {
        ControllerDefinition one = Points.controller(0, "boiler-1", 1, run(0, 10, SECOND));
        ControllerDefinition two = Points.controller(1, "boiler-2", 2, run(0, 1, Duration.ofSeconds(2)));
        Prediction prediction = predict(19_200, one, two);
        assertThat(prediction.line().reads()).isEqualTo(2);
        assertThat(millis(prediction.line())).isCloseTo(22.917 + 12.604, within(0.001));
        assertThat(prediction.line().share()).isCloseTo(0.022917 + 0.006302, within(1e-6));
        assertThat(millis(of(prediction, one))).isCloseTo(22.917, within(0.001));
        assertThat(millis(of(prediction, two))).isCloseTo(12.604, within(0.001));
        assertThat(prediction.intervals().keySet()).containsExactly(SECOND, Duration.ofSeconds(2));
        assertThat(new ArrayList<>(prediction.intervals().values()).get(0).share())
                .isCloseTo(0.022917, within(1e-6));
        assertThat(prediction.late()).isEmpty();
    }

    @Test
    void aTurnaroundIsTakenByItsControllerAlone() {
        ControllerDefinition one = Points.controller(0, "boiler-1", 1, run(0, 1, SECOND));
        ControllerDefinition two = Points.controller(1, "boiler-2", 2, run(0, 1, SECOND));
        LinePlan plan = LinePlan.of(
                line(19_200),
                Points.of(one, two),
                Turnarounds.all(Duration.ZERO).with(two.name(), Duration.ofMillis(20)));
        Prediction prediction = Prediction.of(plan);
        assertThat(millis(of(prediction, one))).isCloseTo(12.604, within(0.001));
        assertThat(millis(of(prediction, two))).isCloseTo(32.604, within(0.001));
    }

    @Test
    void whatIsReadMoreThanOnceCountsAsOften() {
        Consistency twice = new Consistency(true, OptionalInt.empty());
        Consistency apart = new Consistency(false, OptionalInt.of(50));
        PointDefinition wide = Points.limited(
                new PointFormat.Whole(32, false, WordOrder.HIGH_WORD_FIRST),
                Scaling.NONE,
                States.NONE,
                Limits.NONE,
                apart);
        assertThat(millis(predict(19_200, Points.controller(0, "b", 1, Points.together("a", 0, twice)))
                        .line()))
                .isCloseTo(2 * 12.604, within(0.001));
        assertThat(millis(predict(19_200, Points.controller(0, "b", 1, wide)).line()))
                .isCloseTo(3 * 12.604, within(0.001));
    }

    /** A lone controller's pauses hold the line up; another's reads fit into them. */
    @Test
    void pausesLengthenTheScanOfTheirControllerAndNotTheLoad() {
        ReadRules rules = new ReadRules(false, ReadLimits.NONE, Duration.ofMillis(50), List.of());
        List<PointDefinition> points = List.of(Points.uint16("a", 0), Points.uint16("b", 10));
        ControllerDefinition plain = Points.controller(0, "boiler-1", 1);
        ControllerDefinition paused = new ControllerDefinition(
                0, plain.name(), plain.line(), plain.unit(), new ControllerType(new Name("t"), points, rules), 0);
        ControllerDefinition other = Points.controller(1, "boiler-2", 2, run(0, 10, Duration.ofSeconds(2)));
        Prediction prediction = predict(19_200, paused, other);
        assertThat(millis(prediction.line())).isCloseTo(2 * 62.604, within(0.001));
        assertThat(prediction.line().share()).isCloseTo((2 * 0.012604 + 0.022917) / 2, within(1e-6));
    }

    @Test
    void theDearestRowsAreThoseWithoutWhichMostWouldBeSaved() {
        List<PointDefinition> rows = new ArrayList<>(List.of(run(0, 10, SECOND)));
        rows.add(Points.every("lonely", 100, SECOND));
        rows.add(Points.every("slow", 200, Duration.ofSeconds(100)));
        List<Prediction.RowCost> dearest = predict(
                        19_200, Points.controller(0, "boiler-1", 1, rows.toArray(PointDefinition[]::new)))
                .dearest(5);
        assertThat(dearest)
                .extracting(row -> row.point().definition().name().text())
                .containsExactly("lonely", "p-0", "p-9", "slow", "p-1");
        assertThat(dearest.get(0).share()).isCloseTo(0.012604, within(1e-6));
        assertThat(dearest.get(1).share()).isCloseTo(0.001146, within(1e-6));
        assertThat(dearest.get(3).share()).isCloseTo(0.000126, within(1e-6));
        assertThat(dearest.get(4).share()).isCloseTo(0, within(1e-9));
    }

    /** The gap that a row bridges is its own cost: without it, two reads or one, whichever is cheaper. */
    @Test
    void aRowThatHoldsTwoEndsTogetherCostsWhatItBridges() {
        PointDefinition[] rows = IntStream.rangeClosed(0, 18)
                .mapToObj(wire -> Points.every("p-" + wire, wire, wire % 9 == 0 ? SECOND : Duration.ZERO))
                .toArray(PointDefinition[]::new);
        List<Prediction.RowCost> dearest =
                predict(19_200, Points.controller(0, "boiler-1", 1, rows)).dearest(3);
        // 19 registers, or 1 and 1 without the middle one: 12 + 1.146 x 18 less than twice 12.604.
        assertThat(dearest)
                .filteredOn(row -> row.point().definition().name().text().equals("p-9"))
                .singleElement()
                .satisfies(row -> assertThat(row.share()).isCloseTo(0.033229 - 2 * 0.012604, within(1e-6)));
    }

    @Test
    void aPlanWithoutARowIsAtLeastAsMuchCheaper() {
        long seed = Seed.value();
        for (int i = 0; i < 1500; i++) {
            SeededMap map = new SeededMap(seed + i, 12, List.of(SECOND));
            if (!map.rules.pause().isZero()) {
                continue;
            }
            Prediction all = predict(map, map.points);
            for (Prediction.RowCost row : all.dearest(100)) {
                List<SitePoint> others = map.points.stream()
                        .filter(point -> point != row.point())
                        .toList();
                double saved = all.line().share() - predict(map, others).line().share();
                assertThat(row.share()).as("seed %d", seed + i).isBetween(-1e-9, saved + 1e-9);
            }
        }
    }

    private static Prediction predict(SeededMap map, List<SitePoint> points) {
        return Prediction.of(LinePlan.of(map.line, points, Turnarounds.all(map.turnaround)));
    }
}
