package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.HandClock;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Seed;
import burnerbridge.model.Stamp;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.ReadBlock;
import burnerbridge.plan.Turnarounds;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.DoubleSupplier;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A line of 9600 baud whose controllers turn out to think for longer or less than was assumed. Its list has points
 * with rows between them that nobody reads: 11 rows, which pay at 5 ms but not at 0, and 15, which pay at 20.
 */
class LearnedPlanTest {
    private static final Duration MINUTE = Duration.ofMinutes(1);
    private static final Duration EVERY = Duration.ofSeconds(2);
    private static final List<Integer> SIX = List.of(0, 12, 24, 40, 56, 72);

    /** By hand: 11 bits a character; 3.5 of them between two frames. */
    private static final double MILLIS_A_CHARACTER = 11_000.0 / 9600;

    private final Told told = new Told();
    private final HandClock clock = new HandClock();
    private final Set<Integer> absent = new TreeSet<>();
    private final FakeTransport transport = new FakeTransport(this::answer);
    private final List<Long> askedAt = new ArrayList<>();
    private final Map<Integer, Long> readAt = new HashMap<>();
    private final Map<Integer, Long> longest = new HashMap<>();
    private final List<LinePlan> plans = new ArrayList<>();
    private DoubleSupplier turnaround = () -> 5;
    private Duration late = Duration.ZERO;
    private long lastEnd = clock.ticks();
    private List<SitePoint> points = List.of();

    @SuppressWarnings("NullAway.Init")
    private ValueTable table;

    @SuppressWarnings("NullAway.Init")
    private LinePoller poller;

    @AfterEach
    void deaf() {
        told.close();
    }

    private static LineDefinition line(LineDefinition.Endpoint endpoint) {
        return new LineDefinition(new Name("annex"), endpoint, Duration.ofSeconds(1), Duration.ofSeconds(3));
    }

    private void poll(List<Integer> addresses, Duration every) {
        poll(new LineDefinition.RtuOverTcp("127.0.0.1", 7001, 9600), addresses, every);
    }

    private void poll(LineDefinition.Endpoint endpoint, List<Integer> addresses, Duration every) {
        int last = addresses.get(addresses.size() - 1);
        ControllerDefinition boiler = Points.controller(
                0,
                "boiler-1",
                1,
                IntStream.rangeClosed(0, last)
                        .mapToObj(wire ->
                                Points.every("p" + wire, wire, addresses.contains(wire) ? every : Duration.ZERO))
                        .toArray(PointDefinition[]::new));
        points = Points.of(boiler);
        table = new ValueTable(points, List.of(boiler));
        LinePlan plan = LinePlan.of(line(endpoint), points, Turnarounds.ASSUMED);
        poller = new LinePoller(plan, transport, table, clock);
        plans.add(poller.plan());
    }

    private Outcome answer(ReadRequest request) {
        // Silence since the frame before, the request, silence, turnaround, the reply.
        long silence = nanos(3.5 * MILLIS_A_CHARACTER);
        clock.forward(Duration.ofNanos(Math.max(0, silence - (clock.ticks() - lastEnd))));
        Stamp asked = clock.now();
        askedAt.add(asked.ticks());
        boolean refused = IntStream.range(request.first(), request.first() + request.count())
                .anyMatch(absent::contains);
        double characters = 8 + 3.5 + (refused ? 5 : 5 + 2 * request.count());
        clock.forward(Duration.ofNanos(nanos(characters * MILLIS_A_CHARACTER + turnaround.getAsDouble())));
        lastEnd = clock.ticks();
        if (refused) {
            return new Outcome.Refused(2, asked);
        }
        points.stream()
                .filter(point -> point.definition().isPolled())
                .map(point -> point.definition().wireAddress())
                .filter(wire -> wire >= request.first() && wire < request.first() + request.count())
                .forEach(wire -> read(wire, asked.ticks()));
        Stamp told = new Stamp(asked.ticks() - late.toNanos(), asked.wall(), asked.believed());
        return new Outcome.Answered(Registers.of(new int[request.count()]), told);
    }

    private static long nanos(double millis) {
        return Math.round(millis * 1e6);
    }

    private void read(int wire, long at) {
        Long before = readAt.put(wire, at);
        if (before != null) {
            longest.merge(wire, at - before, Math::max);
        }
    }

    private void runFor(Duration duration) {
        long end = clock.ticks() + duration.toNanos();
        while (end - clock.ticks() > 0) {
            long due = poller.step();
            if (!poller.plan().equals(plans.get(plans.size() - 1))) {
                plans.add(poller.plan());
            }
            long now = clock.ticks();
            clock.forward(Duration.ofNanos(Math.max(0, Math.min(due - now, end - now))));
        }
    }

    private List<String> reads() {
        return poller.plan().blocks().stream()
                .map(ReadBlock::requests)
                .map(requests -> requests.get(0).first() + "+" + requests.get(0).count())
                .sorted()
                .toList();
    }

    private List<String> learned() {
        return told.all().stream().filter(text -> text.contains("turnaround")).toList();
    }

    private void assertThatNoPointWaitedForLongerThan(Duration every) {
        Duration scan = Duration.ofMillis(500);
        assertThat(longest)
                .isNotEmpty()
                .allSatisfy((wire, gap) -> assertThat(Duration.ofNanos(gap)).isLessThan(every.plus(scan)));
    }

    @ParameterizedTest
    @CsvSource({"0, 6, 1", "5, 4, 0", "20, 1, 1"})
    void thePlanFollowsTheTurnaroundOnceAndStays(double millis, int reads, int changes) {
        turnaround = () -> millis;
        poll(SIX, EVERY);
        assertThat(reads()).containsExactly("0+25", "40+1", "56+1", "72+1");
        runFor(MINUTE.multipliedBy(30));
        assertThat(poller.plan().blocks()).hasSize(reads);
        assertThat(plans).hasSize(1 + changes);
        assertThat(learned()).hasSize(changes);
        assertThat(poller.turnaround(points.get(0).controller()).orElseThrow().toNanos() / 1e6)
                .isCloseTo(millis, within(0.01));
        assertThat(longest).hasSize(6);
        assertThatNoPointWaitedForLongerThan(EVERY);
    }

    @Test
    void theChangeIsToldWithWhatItBrings() {
        turnaround = () -> 20;
        poll(SIX, EVERY);
        runFor(MINUTE.multipliedBy(2));
        // By hand: (4 x 20 + 2 x (25 + 3)) characters and 4 x 5 ms in 2 s; then 20 + 2 x 73 characters and 20 ms.
        assertThat(learned())
                .containsExactly("line annex: controller boiler-1: its turnaround is 20.0 ms, where 5.0 ms was planned"
                        + " for: 1 read now in place of 4 reads; predicted load of the line 10.5 % in place of 8.8 %");
    }

    /**
     * A median of 31 replies is off by a fifth once in some fifty times, and then mended once; that the second is so
     * too is not to be seen in ten thousand runs.
     */
    @ParameterizedTest
    @CsvSource({"5, 0, 0", "20, 1, 2"})
    void aTurnaroundThatVariesMakesNoPlanChangeToAndFro(double millis, int least, int most) {
        long seed = Seed.value();
        Random random = new Random(seed);
        turnaround = () -> millis * (0.4 + 1.2 * random.nextDouble());
        poll(SIX, EVERY);
        runFor(Duration.ofHours(12));
        assertThat(learned()).as("seed %d", seed).hasSizeBetween(least, most);
        assertThatNoPointWaitedForLongerThan(EVERY);
    }

    @Test
    void aControllerThatBecomesSlowerAndQuickAgainIsFollowedOnceAMinuteAtMost() {
        poll(SIX, EVERY);
        for (int i = 0; i < 20; i++) {
            turnaround = () -> 20;
            runFor(Duration.ofSeconds(100));
            turnaround = () -> 0;
            runFor(Duration.ofSeconds(20));
        }
        assertThat(learned().size()).isBetween(1, 40);
        assertThatNoPointWaitedForLongerThan(EVERY);
    }

    @ParameterizedTest
    @CsvSource({
        "24, 20, '0+13 24+1 40+33'",
        "40, 20, '0+25 40+1 56+17'",
        "24, 0, '0+13 24+1 40+1 56+1 72+1'",
        "40, 0, '0+1 12+1 24+1 40+1 56+1 72+1'"
    })
    void whatIsRefusedStaysAlone(int wire, double millis, String reads) {
        turnaround = () -> millis;
        absent.add(wire);
        poll(SIX, EVERY);
        runFor(Duration.ofSeconds(50));
        transport.asked.clear();
        runFor(MINUTE.multipliedBy(30));
        assertThat(String.join(" ", reads())).isEqualTo(reads);
        assertThat(transport.asked)
                .filteredOn(request -> request.first() <= wire && request.first() + request.count() > wire)
                .isNotEmpty()
                .allMatch(request -> request.count() == 1);
        assertThat(table.reading(points.get(wire)).reason()).isEqualTo(Reason.REFUSED);
        assertThat(longest).hasSize(5);
        assertThatNoPointWaitedForLongerThan(EVERY);
    }

    @ParameterizedTest
    @ValueSource(ints = {24, 40})
    void whatIsRefusedNoLongerIsInThePlanAgain(int wire) {
        turnaround = () -> 20;
        absent.add(wire);
        poll(SIX, EVERY);
        runFor(MINUTE.multipliedBy(5));
        absent.clear();
        runFor(Duration.ofHours(3));
        assertThat(reads()).containsExactly("0+73");
        assertThat(table.reading(points.get(wire)).isGood()).isTrue();
    }

    @Test
    void moreReadsThanBeforeAreSpreadOverTheirInterval() {
        turnaround = () -> 0;
        Duration every = Duration.ofSeconds(10);
        poll(IntStream.range(0, 20).map(i -> 12 * i).boxed().toList(), every);
        assertThat(reads()).hasSize(2);
        runFor(MINUTE.multipliedBy(3));
        assertThat(reads()).hasSize(20);
        assertThatNoPointWaitedForLongerThan(every);
        askedAt.clear();
        runFor(every);
        assertThat(askedAt).hasSize(20);
        for (int i = 1; i < askedAt.size(); i++) {
            assertThat(askedAt.get(i) - askedAt.get(i - 1)).isBetween(nanos(250), nanos(1_300));
        }
    }

    @Test
    void ofWhatMayBeALateReplyNothingIsLearned() {
        turnaround = () -> 20;
        late = Duration.ofMillis(1);
        poll(SIX, EVERY);
        runFor(MINUTE.multipliedBy(5));
        assertThat(poller.turnaround(points.get(0).controller())).isEmpty();
        assertThat(plans).hasSize(1);
    }

    @Test
    void onModbusTcpNothingIsLearned() {
        turnaround = () -> 50;
        poll(new LineDefinition.Tcp("127.0.0.1", 502), SIX, EVERY);
        runFor(MINUTE.multipliedBy(5));
        assertThat(poller.turnaround(points.get(0).controller())).isEmpty();
        assertThat(plans).hasSize(1);
    }

    @Test
    void aLostControllerKeepsItsReads() {
        poll(SIX, EVERY);
        turnaround = () -> 20;
        runFor(Duration.ofSeconds(40));
        transport.answer = request -> FakeTransport.silent(clock);
        runFor(MINUTE.multipliedBy(5));
        assertThat(plans).hasSize(1);
        transport.answer = this::answer;
        runFor(MINUTE.multipliedBy(5));
        assertThat(reads()).containsExactly("0+73");
        assertThat(learned()).hasSize(1);
    }
}
