package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.plan.LinePlan;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Points;
import burnerbridge.table.ControllerLink.State;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A line of 32 controllers, each read every 2 s in 10 ms, of which some die at one moment. */
class DeadControllersTest {
    private static final int ALL = 32;
    private static final Duration EVERY = Duration.ofSeconds(2);
    private static final Duration TIMEOUT = Points.line().replyTimeout();

    private final PollRig rig = new PollRig(controllers());
    private final Set<Integer> dead = new HashSet<>();
    private final Map<Integer, Long> askedAt = new HashMap<>();
    private final Map<Integer, Duration> longest = new HashMap<>();
    private Duration silent = Duration.ZERO;

    private static ControllerDefinition[] controllers() {
        return IntStream.rangeClosed(1, ALL)
                .mapToObj(unit -> Points.controller(
                        unit - 1, "boiler-" + unit, unit, Points.uint16("starts", 10), Points.uint16("hours", 20)))
                .toArray(ControllerDefinition[]::new);
    }

    @BeforeEach
    void answer() {
        rig.transport.answer = this::answer;
        rig.runFor(Duration.ofSeconds(30));
    }

    private Outcome answer(ReadRequest request) {
        long now = rig.clock.ticks();
        int read = 1000 * request.unit().number() + request.first();
        Long before = askedAt.put(read, now);
        if (dead.contains(request.unit().number())) {
            silent = silent.plus(TIMEOUT);
            return rig.silent(request);
        }
        if (before != null) {
            longest.merge(
                    request.unit().number(),
                    Duration.ofNanos(now - before),
                    (one, other) -> one.compareTo(other) > 0 ? one : other);
        }
        return rig.answered(request);
    }

    private void dies(int count) {
        IntStream.range(0, count).forEach(i -> dead.add(1 + (i * 7) % ALL));
        assertThat(dead).hasSize(count);
    }

    private void measure(Duration time) {
        longest.clear();
        silent = Duration.ZERO;
        rig.runFor(time);
    }

    private State link(int unit) {
        return rig.table.link(rig.table.controllers().get(unit - 1)).state();
    }

    private void assertLivePace(Duration late) {
        assertThat(longest).hasSize(ALL - dead.size());
        assertThat(longest.values()).allSatisfy(interval -> assertThat(interval).isLessThan(EVERY.plus(late)));
    }

    /** All that the reads of the living take of one interval, on top of the one time-out. */
    private static final Duration OTHERS = Duration.ofMillis(10 * 2 * ALL);

    @ParameterizedTest
    @ValueSource(ints = {1, 4, 30})
    void theLivingAreReadAtTheirIntervalWithinOneTimeOut(int count) {
        dies(count);
        // Who is dead is known only after each was asked: in that round there may be a time-out for each.
        measure(TIMEOUT.multipliedBy(count).plus(EVERY));
        longest.values().forEach(i -> assertThat(i).isLessThan(EVERY.plus(TIMEOUT.multipliedBy(count + 1L))));
        measure(Duration.ofMinutes(10));
        assertLivePace(TIMEOUT.plus(OTHERS));
        assertThat(dead).allSatisfy(unit -> assertThat(link(unit)).isEqualTo(State.DOWN));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 4, 30})
    void theProbesOfAllTheDeadTakeTwoPercentOfTheLine(int count) {
        dies(count);
        rig.runFor(Duration.ofMinutes(5));
        assertThat(dead).allSatisfy(unit -> assertThat(link(unit)).isEqualTo(State.DOWN));
        for (int tenMinutes = 0; tenMinutes < 3; tenMinutes++) {
            measure(Duration.ofMinutes(10));
            // What was saved up before lets at most another six leave.
            Duration share = Duration.ofSeconds(12).plus(TIMEOUT.multipliedBy(tenMinutes == 0 ? 7 : 1));
            assertThat(silent).isLessThanOrEqualTo(share).isGreaterThanOrEqualTo(Duration.ofSeconds(10));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 4, 30})
    void oneThatComesBackIsFoundWithinFiftyTimeOutsForEachOfTheDead(int count) {
        dies(count);
        rig.runFor(Duration.ofHours(2));
        int back = dead.stream().sorted().skip(count / 2).findFirst().orElseThrow();
        dead.remove(back);
        Duration bound = TIMEOUT.multipliedBy(50L * count).plusSeconds(2L * count);
        Duration waited = Duration.ZERO;
        while (link(back) != State.UP) {
            rig.runFor(Duration.ofSeconds(1));
            waited = waited.plusSeconds(1);
            assertThat(waited).isLessThanOrEqualTo(bound);
        }
        rig.runFor(EVERY.plus(TIMEOUT));
        measure(Duration.ofMinutes(2));
        assertLivePace(TIMEOUT.plus(OTHERS));
        assertThat(rig.points)
                .filteredOn(point -> point.controller().unit().number() == back)
                .hasSize(2)
                .allSatisfy(
                        point -> assertThat(rig.table.reading(point).isGood()).isTrue());
    }

    /** As when the power of a room returns. */
    @Test
    void whereOneIsBackTheOthersAreFoundSoon() {
        dies(30);
        rig.runFor(Duration.ofHours(1));
        dead.clear();
        rig.runFor(TIMEOUT.multipliedBy(50).plusSeconds(90));
        assertThat(IntStream.rangeClosed(1, ALL)).allMatch(unit -> link(unit) == State.UP);
    }

    /** It is away for as long as it takes to start again. */
    @Test
    void aLoneOneThatIsAwayForAMomentIsFoundSoon() {
        dies(1);
        rig.runFor(Duration.ofSeconds(30));
        assertThat(link(1)).isEqualTo(State.DOWN);
        dead.clear();
        rig.runFor(Duration.ofSeconds(32));
        assertThat(link(1)).isEqualTo(State.UP);
    }

    @Test
    void itIsAskedByTheSmallestOfWhatItAnsweredBefore() {
        PollRig one = new PollRig(
                points -> {
                    var two = PollRig.together(points.subList(0, 2)).blocks();
                    var deaf = PollRig.together(points.subList(2, 3)).blocks();
                    var small = PollRig.together(points.subList(3, 4)).blocks();
                    return new LinePlan(Points.line(), List.of(two.get(0), deaf.get(0), small.get(0)));
                },
                Points.controller(
                        0,
                        "boiler-1",
                        1,
                        Points.uint16("a", 10),
                        Points.uint16("b", 19),
                        Points.uint16("deaf", 30),
                        Points.uint16("small", 40)));
        one.transport.answer = r -> r.first() == 30 ? one.silent(r) : one.answered(r);
        one.runFor(Duration.ofSeconds(30));
        one.transport.answer = one::silent;
        one.runFor(Duration.ofMinutes(1));
        assertThat(one.table.link(one.points.get(0).controller()).state()).isEqualTo(State.DOWN);
        one.transport.asked.clear();
        one.runFor(Duration.ofMinutes(10));
        Map<Integer, Long> asks = new HashMap<>();
        one.askedFirsts().forEach(first -> asks.merge(first, 1L, Long::sum));
        assertThat(asks.get(40)).isGreaterThan(one.askedFirsts().size() / 2);
        // In case that it answers that one no more, the others are tried, too.
        assertThat(asks.keySet()).hasSize(3);
    }
}
