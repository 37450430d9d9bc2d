package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.pace.IntervalPace;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A line of which more is wanted than it can do, and one of which less is. A read takes 10 ms. */
class OverloadTest {
    private static final Duration MINUTE = Duration.ofMinutes(1);
    private static final Duration HOUR = Duration.ofHours(1);

    private final Told told = new Told();
    private final Map<Integer, Long> lastAsked = new HashMap<>();
    private final Map<Integer, List<Duration>> intervals = new HashMap<>();

    @AfterEach
    void deaf() {
        told.close();
    }

    private PollRig rig(PointDefinition... points) {
        PollRig rig = new PollRig(Points.controller(0, "boiler-1", 1, points));
        rig.transport.answer = request -> {
            Long before = lastAsked.put(request.first(), rig.clock.ticks());
            if (before != null) {
                intervals
                        .computeIfAbsent(request.first(), first -> new ArrayList<>())
                        .add(Duration.ofNanos(rig.clock.ticks() - before));
            }
            return rig.answered(request);
        };
        return rig;
    }

    /** So many reads at an interval, from an address on. */
    private static Stream<PointDefinition> reads(int count, int from, Duration every) {
        return IntStream.range(0, count).mapToObj(i -> Points.every("p" + (from + 2 * i), from + 2 * i, every));
    }

    private static PointDefinition[] of(List<Stream<PointDefinition>> parts) {
        return parts.stream().flatMap(part -> part).toArray(PointDefinition[]::new);
    }

    private List<Duration> intervals(int first) {
        return intervals.getOrDefault(first, List.of());
    }

    private Duration longest(int first) {
        return intervals(first).stream().max(Duration::compareTo).orElseThrow();
    }

    /** 20, 50 or 300 reads that are wanted every 100 ms, and some that are wanted seldom. */
    @ParameterizedTest
    @CsvSource({"20", "50", "300"})
    void whereMoreIsWantedThanTheLineCanDoEverythingStillHasItsTurn(int count) {
        PollRig rig = rig(of(List.of(
                reads(count, 0, Duration.ofMillis(100)),
                reads(1, 1000, Duration.ofSeconds(10)),
                reads(5, 2000, MINUTE),
                reads(1, 3000, HOUR))));
        rig.runFor(Duration.ofMinutes(130));
        Duration round = Duration.ofMillis(10L * (count + 20));
        // Whatever the line can do goes round among those that are wanted often.
        assertThat(longest(0)).isLessThan(round.plusMillis(200));
        for (int i = 0; i < count; i++) {
            assertThat(intervals(2 * i))
                    .hasSizeGreaterThan((int) (0.9 * intervals(0).size()));
        }
        // What is wanted seldom is late by half its interval or 10 s at most, and a round.
        assertThat(longest(1000)).isLessThan(Duration.ofSeconds(15).plus(round));
        assertThat(longest(2000)).isLessThan(MINUTE.plusSeconds(10).plus(round));
        assertThat(longest(3000)).isLessThan(HOUR.plusSeconds(10).plus(round));
        assertThat(intervals(3000)).hasSizeGreaterThanOrEqualTo(2);
    }

    @Test
    void anOverloadIsToldOnceAndSoIsItsEnd() {
        PollRig rig = rig(of(List.of(reads(20, 0, Duration.ofMillis(100)))));
        rig.runFor(MINUTE.multipliedBy(10));
        assertThat(told.warnings())
                .singleElement()
                .asString()
                .startsWith("line annex: is overloaded: ")
                .contains("controller boiler-1 is read every 0.2 s where every 0.1 s is wanted");
        rig.transport.answer = request -> new Outcome.Answered(Registers.of(new int[request.count()]), rig.clock.now());
        rig.runFor(MINUTE.multipliedBy(3));
        assertThat(told.all()).containsOnlyOnce("line annex: keeps its intervals again");
        assertThat(told.warnings()).hasSize(1);
    }

    @Test
    void aFewTimeOutsAreNoOverload() {
        PollRig rig = rig(of(List.of(reads(3, 0, Duration.ofMillis(500)))));
        int[] asks = {0};
        rig.transport.answer = r -> ++asks[0] % 100 == 0 ? rig.silent(r) : rig.answered(r);
        rig.runFor(MINUTE.multipliedBy(20));
        assertThat(told.warnings()).isEmpty();
    }

    @Test
    void thePaceOfEachIntervalIsMeasured() {
        PollRig rig = rig(of(List.of(reads(20, 0, Duration.ofMillis(100)), reads(2, 1000, Duration.ofSeconds(10)))));
        assertThat(rig.poller.paces()).extracting(IntervalPace::achieved).allMatch(Optional::isEmpty);
        rig.runFor(MINUTE);
        IntervalPace fast = rig.poller.paces().get(0);
        assertThat(fast.controller().name().text()).isEqualTo("boiler-1");
        assertThat(fast.every()).isEqualTo(Duration.ofMillis(100));
        assertThat(fast.reads()).isEqualTo(20);
        assertThat(fast.achieved().orElseThrow().toMillis()).isCloseTo(200, within(20L));
        assertThat(fast.requests()).isBetween(5_900L, 6_000L);
        assertThat(fast.busTime()).isEqualTo(Duration.ofMillis(10 * fast.requests()));
        // Of 600 turns each of 20 reads had half.
        assertThat(fast.skipped()).isBetween(5_700L, 6_200L);
        IntervalPace slow = rig.poller.paces().get(1);
        assertThat(slow.reads()).isEqualTo(2);
        assertThat(slow.skipped()).isZero();
        assertThat(slow.requests()).isBetween(10L, 14L);
    }

    @Test
    void aLostControllerSkipsNothingAndIsMeasuredAnewWhenItIsBack() {
        PollRig rig = rig(of(List.of(reads(2, 0, Duration.ofSeconds(1)))));
        rig.runFor(MINUTE);
        rig.transport.answer = rig::silent;
        rig.runFor(MINUTE.multipliedBy(10));
        assertThat(rig.poller.paces().get(0).achieved().orElseThrow()).isGreaterThan(MINUTE.multipliedBy(9));
        rig.transport.answer = rig::answered;
        rig.runFor(MINUTE.multipliedBy(2));
        assertThat(rig.poller.paces().get(0).achieved().orElseThrow().toMillis())
                .isCloseTo(1_000, within(20L));
        // But for the few that the three time-outs took.
        assertThat(rig.poller.paces().get(0).skipped()).isLessThan(6);
        assertThat(told.warnings()).noneMatch(text -> text.contains("overloaded"));
    }

    @Test
    void aBusyControllerSkipsNothing() {
        PollRig rig = rig(of(List.of(reads(2, 0, Duration.ofSeconds(1)))));
        rig.runFor(MINUTE);
        rig.transport.answer = request -> rig.refused(request, 6);
        rig.runFor(MINUTE.multipliedBy(10));
        rig.transport.answer = rig::answered;
        rig.runFor(MINUTE.multipliedBy(2));
        assertThat(rig.poller.paces().get(0).skipped()).isZero();
        assertThat(told.warnings()).noneMatch(text -> text.contains("overloaded"));
    }

    @Test
    void theReadsOfALineAreSpreadOverTheirInterval() {
        PollRig rig = rig(of(List.of(reads(50, 0, Duration.ofSeconds(5)))));
        rig.runFor(Duration.ofSeconds(10));
        assertThat(rig.transport.asked).hasSizeGreaterThan(90);
        rig.transport.asked.clear();
        List<Long> at = new ArrayList<>();
        rig.transport.answer = r -> {
            at.add(rig.clock.ticks());
            return rig.answered(r);
        };
        rig.runFor(Duration.ofSeconds(5));
        assertThat(at).hasSize(50);
        for (int i = 1; i < at.size(); i++) {
            assertThat(Duration.ofNanos(at.get(i) - at.get(i - 1)).toMillis()).isBetween(99L, 101L);
        }
        assertThat(intervals.values()).hasSize(50);
    }

    /** Each has a poller of its own, and all start at the same moment. */
    @Test
    void aThousandLinesAskInNoMomentAllAtOnce() {
        int lines = 1_000;
        ControllerDefinition[] controllers = IntStream.range(0, lines)
                .mapToObj(i -> Points.controller(i, "b" + i, 1, Points.every("p", 0, Duration.ofSeconds(1))))
                .toArray(ControllerDefinition[]::new);
        List<SitePoint> points = Points.of(controllers);
        ValueTable table = new ValueTable(points, Arrays.asList(controllers));
        int[] inMillisecond = new int[1_000];
        for (SitePoint point : points) {
            asked(point, table).forEach(at -> inMillisecond[(int) (at / 1_000_000 % 1_000)]++);
        }
        assertThat(Arrays.stream(inMillisecond).sum()).isEqualTo(10 * lines);
        assertThat(Arrays.stream(inMillisecond).max().orElseThrow()).isLessThanOrEqualTo(30);
        assertThat(Arrays.stream(inMillisecond).filter(count -> count == 0).count())
                .isLessThan(200);
    }

    /** Nanoseconds after the start at which the point is asked in the ten seconds after the first two. */
    private static List<Long> asked(SitePoint point, ValueTable table) {
        HandClock clock = new HandClock();
        long start = clock.ticks();
        List<Long> at = new ArrayList<>();
        FakeTransport transport = new FakeTransport(request -> {
            at.add(clock.ticks() - start);
            return new Outcome.Answered(Registers.of(1), clock.now());
        });
        LinePlan plan = LinePlan.all(List.of(Points.line()), List.of(point)).get(0);
        try (LineTransport line = transport;
                LinePoller poller = new LinePoller(plan, line, table, clock)) {
            while (clock.ticks() - start < Duration.ofSeconds(12).toNanos()) {
                clock.forward(Duration.ofNanos(Math.max(0, poller.step() - clock.ticks())));
            }
        }
        return at.stream()
                .filter(tick -> tick >= Duration.ofSeconds(2).toNanos()
                        && tick < Duration.ofSeconds(12).toNanos())
                .toList();
    }
}
