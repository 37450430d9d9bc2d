package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.Registers;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Limits;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.ReadRules;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import burnerbridge.table.ControllerLink.State;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** Controllers that want a pause between requests, and points that a read clears. */
class CarefulReadsTest {
    private static final Duration PAUSE = Duration.ofMillis(300);

    private static ControllerDefinition pausing(int ordinal, int unit, PointDefinition... points) {
        ControllerDefinition one = Points.controller(ordinal, "boiler-" + unit, unit, points);
        ReadRules rules = new ReadRules(false, ReadLimits.NONE, PAUSE, List.of());
        return new ControllerDefinition(
                ordinal,
                one.name(),
                one.line(),
                one.unit(),
                new ControllerType(one.type().name(), List.of(points), rules),
                one.instanceBase());
    }

    /** Answers, and notes how long each unit had been left alone. */
    private static List<Duration> rests(PollRig rig, int unit) {
        List<Duration> rests = new ArrayList<>();
        rig.transport.answer = request -> {
            Long end = rig.endOf(unit);
            if (request.unit().number() == unit && end != null) {
                rests.add(Duration.ofNanos(rig.clock.ticks() - end));
            }
            return rig.answered(request);
        };
        return rests;
    }

    @Test
    void aControllerIsLeftAloneForItsPauseWhileOthersAreRead() {
        PollRig rig = new PollRig(
                pausing(0, 1, Points.uint16("a", 1), Points.uint16("b", 3), Points.uint16("c", 5)),
                Points.controller(1, "boiler-2", 2, Points.uint16("a", 1), Points.uint16("b", 3)));
        List<Duration> rests = rests(rig, 1);
        rig.runFor(Duration.ofMillis(100));
        assertThat(rig.asks(1)).isEqualTo(1);
        assertThat(rig.asks(2)).isEqualTo(2);
        rig.runFor(Duration.ofSeconds(20));
        assertThat(rests)
                .hasSizeGreaterThan(25)
                .allSatisfy(rest -> assertThat(rest).isGreaterThanOrEqualTo(PAUSE));
        assertThat(rig.points)
                .allSatisfy(
                        point -> assertThat(rig.table.reading(point).isGood()).isTrue());
    }

    /** Three reads wanted every 100 ms from a controller that answers about three a second. */
    @Test
    void whereThePauseIsTooLongForAllEveryReadStillGetsItsTurn() {
        PollRig rig = new PollRig(pausing(
                0,
                1,
                Points.every("a", 1, Duration.ofMillis(100)),
                Points.every("b", 3, Duration.ofMillis(100)),
                Points.every("c", 5, Duration.ofMillis(100))));
        rig.runFor(Duration.ofSeconds(30));
        Map<Integer, Integer> turns = new TreeMap<>();
        rig.askedFirsts().forEach(first -> turns.merge(first, 1, Integer::sum));
        assertThat(turns.values())
                .hasSize(3)
                .allSatisfy(count -> assertThat(count).isBetween(30, 34));
    }

    @Test
    void theSecondReadOfAValueWaitsTheSamePause() {
        PollRig rig = new PollRig(pausing(
                0,
                1,
                Points.limited(
                        new PointFormat.Whole(32, false, WordOrder.HIGH_WORD_FIRST),
                        Scaling.NONE,
                        States.NONE,
                        Limits.NONE,
                        new Consistency(false, OptionalInt.of(187)))));
        List<Duration> rests = rests(rig, 1);
        rig.runFor(Duration.ofSeconds(1));
        assertThat(rig.askedFirsts()).containsExactly(0, 187, 0);
        assertThat(rests).hasSize(2).allSatisfy(rest -> assertThat(rest).isGreaterThanOrEqualTo(PAUSE));
        assertThat(rig.reading(0).isGood()).isTrue();
    }

    private static PollRig latched() {
        return new PollRig(Points.controller(
                0, "boiler-1", 1, Points.together("latch", 9, Consistency.ONCE), Points.uint16("starts", 20)));
    }

    private static List<ReadRequest> ofLatch(PollRig rig) {
        return rig.transport.asked.stream()
                .filter(request -> request.first() == 9)
                .toList();
    }

    @Test
    void aReadThatClearsIsMadeOnceAnIntervalWhateverItBrings() {
        PollRig rig = latched();
        rig.transport.answer = r -> r.first() == 9
                ? switch (ofLatch(rig).size() % 3) {
                    case 0 -> rig.silent(r);
                    case 1 -> rig.refused(r, 6);
                    default -> rig.answered(r);
                }
                : rig.answered(r);
        rig.runFor(Duration.ofSeconds(60));
        assertThat(ofLatch(rig)).hasSizeBetween(28, 31).allMatch(r -> r.terms().once());
    }

    @Test
    void aLostControllerIsNotProbedByAReadThatClears() {
        PollRig rig = latched();
        rig.transport.answer = rig::silent;
        rig.runFor(Duration.ofSeconds(10));
        assertThat(rig.table.link(rig.points.get(0).controller()).state()).isEqualTo(State.DOWN);
        rig.transport.asked.clear();
        rig.runFor(Duration.ofMinutes(10));
        assertThat(ofLatch(rig)).isEmpty();
        assertThat(rig.transport.asked).isNotEmpty();
        rig.transport.answer = rig::answered;
        rig.runFor(Duration.ofSeconds(60));
        assertThat(rig.reading(0).isGood()).isTrue();
    }

    @Test
    void whereEveryReadClearsTheyAreTheOnlyProbes() {
        PollRig rig = new PollRig(Points.controller(0, "boiler-1", 1, Points.together("latch", 9, Consistency.ONCE)));
        rig.transport.answer = rig::silent;
        rig.runFor(Duration.ofMinutes(3));
        rig.transport.answer = rig::answered;
        rig.runFor(Duration.ofMinutes(1));
        assertThat(rig.reading(0).isGood()).isTrue();
    }

    @Test
    void aReadThatNeverLeftIsMadeAsSoonAsItCan() {
        PollRig rig = latched();
        rig.transport.answer = r -> new Outcome.NotConnected("127.0.0.1:502: Connection refused");
        rig.runFor(Duration.ofMillis(500));
        rig.transport.answer = r -> new Outcome.Answered(Registers.of(new int[r.count()]), rig.clock.now());
        rig.runFor(Duration.ofSeconds(1));
        assertThat(rig.reading(0).isGood()).isTrue();
    }

    @Test
    void aReadThatMustWaitForLateRepliesLeavesTheLineToOthers() {
        PollRig rig = latched();
        long open = rig.clock.ticks() + Duration.ofSeconds(5).toNanos();
        rig.transport.ready = (request, now) -> request.terms().once() ? open : now;
        rig.runFor(Duration.ofSeconds(4));
        assertThat(rig.askedFirsts()).containsOnly(20).hasSizeGreaterThanOrEqualTo(2);
        rig.runFor(Duration.ofMillis(1_500));
        assertThat(ofLatch(rig)).hasSize(1);
    }
}
