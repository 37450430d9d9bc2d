package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.Role;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** One read for all points of a controller, of which it refuses some. */
class SplitReadsTest {
    private static final Duration MINUTE = Duration.ofMinutes(1);

    private final Told told = new Told();
    private final Set<Integer> absent = new TreeSet<>();
    private int code = 2;

    @AfterEach
    void deaf() {
        told.close();
    }

    private PollRig rig(PointDefinition... points) {
        PollRig rig = new PollRig(PollRig::together, Points.controller(0, "boiler-1", 1, points));
        rig.transport.answer = request -> answer(rig, request);
        return rig;
    }

    private Outcome answer(PollRig rig, ReadRequest request) {
        return takes(request, absent::contains) ? rig.refused(request, code) : rig.answered(request);
    }

    private static boolean takes(ReadRequest request, IntPredicate which) {
        return IntStream.range(request.first(), request.first() + request.count())
                .anyMatch(which);
    }

    /** So many registers in a row. */
    private PollRig registers(int count) {
        return rig(IntStream.range(0, count)
                .mapToObj(wire -> Points.uint16("p" + wire, wire))
                .toArray(PointDefinition[]::new));
    }

    private static Set<Integer> refused(PollRig rig) {
        return rig.points.stream()
                .filter(point -> rig.table.reading(point).reason() == Reason.REFUSED)
                .map(point -> point.definition().wireAddress())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static long good(PollRig rig) {
        return rig.points.stream()
                .filter(point -> rig.table.reading(point).isGood())
                .count();
    }

    private static List<String> plan(PollRig rig) {
        return rig.poller.plan().blocks().stream()
                .map(ReadBlock::requests)
                .map(requests -> requests.get(0).first() + "+" + requests.get(0).count())
                .toList();
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3})
    void onlyTheRefusedPointIsRefusedAndWhatLiesOnEitherSideIsReadInOneReadEach(int exception) {
        code = exception;
        absent.add(37);
        PollRig rig = registers(64);
        rig.runFor(Duration.ofSeconds(10));
        assertThat(refused(rig)).containsExactly(37);
        assertThat(good(rig)).isEqualTo(63);
        assertThat(plan(rig)).containsExactlyInAnyOrder("0+37", "37+1", "38+26");
        assertThat(told.warnings())
                .singleElement()
                .asString()
                .startsWith("line annex: boiler-1.p37 at holding-register 38 (wire 37): is refused with exception "
                        + exception);
        assertThat(told.all())
                .filteredOn(text -> text.contains("asking for parts"))
                .hasSize(1);
    }

    @Test
    void whatIsRefusedIsAskedForSeldomAndTheWholeNeverAgain() {
        absent.add(37);
        PollRig rig = registers(64);
        rig.runFor(MINUTE);
        rig.transport.asked.clear();
        rig.runFor(Duration.ofHours(10));
        List<ReadRequest> asked = rig.transport.asked.stream()
                .filter(request -> takes(request, wire -> wire == 37))
                .toList();
        // After 1, 2, 4, … s, and from 2048 s on every hour.
        assertThat(asked).hasSizeBetween(14, 17).allMatch(request -> request.count() == 1);
        assertThat(rig.transport.asked).hasSizeBetween(2 * 17_990, 2 * 18_020);
        assertThat(rig.reading(37).reason()).isEqualTo(Reason.REFUSED);
        absent.clear();
        rig.runFor(Duration.ofHours(1));
        assertThat(good(rig)).isEqualTo(64);
        assertThat(told.all())
                .containsOnlyOnce("line annex: boiler-1.p37 at holding-register 38 (wire 37): is refused no longer");
    }

    @Test
    void whateverIsRefusedIsFoundAndNothingElse() {
        for (int seed = 0; seed < 200; seed++) {
            Random random = new Random(seed);
            int count = 1 + random.nextInt(60);
            absent.clear();
            IntStream.range(0, random.nextInt(6)).forEach(i -> absent.add(random.nextInt(count)));
            PollRig rig = registers(count);
            rig.runFor(Duration.ofSeconds(15));
            assertThat(refused(rig)).as("seed %d", seed).isEqualTo(absent);
            assertThat(good(rig)).as("seed %d", seed).isEqualTo(count - absent.size());
            long runs = IntStream.range(0, count)
                    .filter(wire -> !absent.contains(wire) && (wire == 0 || absent.contains(wire - 1)))
                    .count();
            assertThat(plan(rig)).as("seed %d", seed).hasSize((int) runs + absent.size());
        }
    }

    @Test
    void aGroupIsNeverSplitAndIsRefusedAsAWhole() {
        Consistency group = Consistency.ONE_READ.inGroup(new Name("g"));
        absent.add(5);
        PollRig rig = rig(
                Points.uint16("a", 0),
                Points.uint16("b", 1),
                Points.together("g1", 3, group),
                Points.uint16("between", 4),
                Points.together("g2", 6, group),
                Points.uint16("c", 8));
        rig.runFor(Duration.ofSeconds(10));
        assertThat(refused(rig)).containsExactly(3, 4, 6);
        assertThat(plan(rig)).containsExactlyInAnyOrder("0+2", "3+4", "8+1");
        assertThat(rig.transport.asked).allMatch(request -> takes(request, w -> w == 3) == takes(request, w -> w == 6));
    }

    /** It answers at most 16 registers at once, whatever the type says. */
    @Test
    void aReadThatIsRefusedForItsLengthIsReadInPartsAndNothingIsRefused() {
        PollRig rig = registers(60);
        rig.transport.answer = r -> r.count() > 16 ? rig.refused(r, 3) : rig.answered(r);
        rig.runFor(Duration.ofSeconds(10));
        assertThat(good(rig)).isEqualTo(60);
        assertThat(plan(rig)).hasSize(4);
        rig.transport.asked.clear();
        rig.runFor(Duration.ofHours(1));
        assertThat(rig.transport.asked).allMatch(request -> request.count() <= 16);
        assertThat(told.warnings()).isEmpty();
    }

    @Test
    void aReadThatIsTooLongAndTakesARefusedRegisterComesToRest() {
        absent.add(20);
        PollRig rig = registers(60);
        rig.transport.answer = r -> r.count() > 16 ? rig.refused(r, 3) : answer(rig, r);
        rig.runFor(Duration.ofSeconds(20));
        assertThat(refused(rig)).containsExactly(20);
        assertThat(good(rig)).isEqualTo(59);
        rig.transport.asked.clear();
        rig.runFor(Duration.ofMinutes(10));
        assertThat(rig.transport.asked).allMatch(request -> request.count() <= 16);
    }

    @Test
    void aGapThatIsRefusedIsReadAroundAndNoPointIsRefused() {
        absent.add(10);
        PollRig rig = rig(Points.uint16("a", 0), Points.uint16("b", 9), Points.uint16("c", 12), Points.uint16("d", 13));
        rig.runFor(Duration.ofSeconds(10));
        assertThat(good(rig)).isEqualTo(4);
        assertThat(plan(rig)).containsExactlyInAnyOrder("0+10", "12+2");
    }

    /** Some such controllers say that they don't know the function when they mean the address. */
    @Test
    void aFunctionIsAbsentOnlyWhenEachPointByItIsRefused() {
        code = 1;
        IntStream.range(0, 8).forEach(absent::add);
        PollRig rig = registers(8);
        rig.runFor(MINUTE);
        assertThat(refused(rig)).hasSize(8);
        assertThat(told.warnings()).singleElement().asString().contains("does not know function 3");
        rig.transport.asked.clear();
        rig.runFor(MINUTE);
        assertThat(rig.transport.asked).hasSizeBetween(29, 31);
        absent.retainAll(Set.of(3));
        rig.runFor(Duration.ofSeconds(20));
        assertThat(refused(rig)).containsExactly(3);
        assertThat(plan(rig)).containsExactlyInAnyOrder("0+3", "3+1", "4+4");
    }

    /** As while it starts. */
    @Test
    void aControllerThatRefusesAllForAWhileIsReadAsAWholeAfterwards() {
        IntStream.range(0, 64).forEach(absent::add);
        PollRig rig = registers(64);
        rig.runFor(MINUTE);
        assertThat(refused(rig)).hasSize(64);
        absent.clear();
        rig.runFor(MINUTE.multipliedBy(2));
        assertThat(good(rig)).isEqualTo(64);
        assertThat(plan(rig)).containsExactly("0+64");
    }

    @Test
    void whatIsRefusedNowAndThenComesAndGoesAlone() {
        PollRig rig = registers(64);
        for (int i = 0; i < 20; i++) {
            absent.add(37);
            rig.runFor(Duration.ofSeconds(30));
            assertThat(refused(rig)).containsExactly(37);
            assertThat(good(rig)).isEqualTo(63);
            absent.clear();
            rig.runFor(Duration.ofSeconds(40));
            assertThat(good(rig)).isEqualTo(64);
            assertThat(plan(rig)).containsExactly("0+64");
        }
    }

    @Test
    void whatWasRefusedIsAskedForAfterTheControllerWasLost() {
        absent.add(3);
        PollRig rig = registers(8);
        rig.runFor(Duration.ofHours(3));
        rig.transport.answer = rig::silent;
        rig.runFor(MINUTE);
        absent.clear();
        rig.transport.answer = rig::answered;
        rig.runFor(MINUTE);
        assertThat(good(rig)).isEqualTo(8);
    }

    @Test
    void whatWasRefusedIsAskedForAfterTheLineWasDown() {
        absent.add(3);
        PollRig rig = registers(8);
        rig.runFor(Duration.ofHours(3));
        rig.transport.answer = r -> new Outcome.NotConnected("refused");
        rig.runFor(Duration.ofSeconds(20));
        absent.clear();
        rig.transport.answer = rig::answered;
        rig.runFor(Duration.ofSeconds(10));
        assertThat(good(rig)).isEqualTo(8);
    }

    private static PointDefinition firmware() {
        return Points.as(Role.IDENTITY, Points.uint16("firmware", 0));
    }

    @Test
    void aControllerWhoseIdentityChangedIsAskedAnewForAll() {
        absent.add(3);
        int[] firmware = {7};
        PollRig rig = rig(firmware(), Points.uint16("a", 1), Points.uint16("b", 2), Points.uint16("c", 3));
        rig.transport.answer = r -> {
            Outcome outcome = answer(rig, r);
            return outcome instanceof Outcome.Answered answered && r.first() == 0
                    ? new Outcome.Answered(
                            Registers.of(IntStream.range(0, r.count())
                                    .map(i -> i == 0 ? firmware[0] : i)
                                    .toArray()),
                            answered.askedAt())
                    : outcome;
        };
        rig.runFor(Duration.ofHours(3));
        assertThat(refused(rig)).containsExactly(3);
        absent.clear();
        rig.runFor(Duration.ofSeconds(10));
        assertThat(refused(rig)).containsExactly(3);
        firmware[0] = 8;
        rig.runFor(Duration.ofSeconds(5));
        assertThat(good(rig)).isEqualTo(4);
        assertThat(plan(rig)).containsExactly("0+4");
    }

    @Test
    void aControllerIsAskedAnewWhenTold() {
        absent.add(3);
        PollRig rig = registers(8);
        rig.runFor(Duration.ofHours(3));
        ControllerDefinition boiler = rig.points.get(0).controller();
        absent.clear();
        rig.poller.askAnew(boiler);
        rig.runFor(Duration.ofSeconds(1));
        assertThat(good(rig)).isEqualTo(8);
        assertThat(plan(rig)).containsExactly("0+8");
    }

    @Test
    void aPartKeepsTheIntervalOfItsOwnPoints() {
        absent.add(3);
        PointDefinition[] points = {
            Points.every("fast", 0, Duration.ofSeconds(2)),
            Points.every("a", 1, MINUTE),
            Points.every("b", 2, MINUTE),
            Points.every("gone", 3, MINUTE),
            Points.every("c", 4, MINUTE),
            Points.every("d", 5, MINUTE)
        };
        PollRig rig = rig(points);
        rig.runFor(Duration.ofSeconds(10));
        assertThat(rig.poller.plan().blocks())
                .extracting(ReadBlock::every)
                .containsExactlyInAnyOrder(Duration.ofSeconds(2), MINUTE, MINUTE);
        List<SitePoint> all = rig.poller.plan().blocks().stream()
                .flatMap(block -> block.points().stream())
                .toList();
        assertThat(all).hasSize(Arrays.asList(points).size()).doesNotHaveDuplicates();
    }
}
