package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.poll.pace.IntervalPace;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.SitePoint;
import burnerbridge.site.UnitId;
import burnerbridge.table.ControllerLink.State;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LineErrandTest {
    private static final Duration PIECE = Duration.ofMillis(30);

    /** What the line's thread did, in order: the addresses read, and {@code E} for a piece of the errand. */
    private final List<String> done = new ArrayList<>();

    /** An errand that has something to do from a tick on, and does what a test says. */
    private static final class Errand implements LineErrand {
        private final Supplier<List<SitePoint>> piece;
        private OptionalLong ready = OptionalLong.empty();

        Errand(Supplier<List<SitePoint>> piece) {
            this.piece = piece;
        }

        @Override
        public OptionalLong readyAt(long now) {
            return ready;
        }

        @Override
        public List<SitePoint> run() {
            return piece.get();
        }
    }

    private static PointDefinition[] every(int count, Duration interval) {
        return IntStream.range(0, count)
                .mapToObj(i -> Points.every("p" + i, 2 * i, interval))
                .toArray(PointDefinition[]::new);
    }

    private PollRig rig(PointDefinition... points) {
        PollRig rig = new PollRig(Points.controller(0, "boiler-1", 1, points));
        rig.transport.answer = request -> {
            done.add(Integer.toString(request.first()));
            return rig.answered(request);
        };
        return rig;
    }

    private Errand errand(PollRig rig, Supplier<List<SitePoint>> soon) {
        Errand errand = new Errand(() -> {
            done.add("E");
            rig.clock.forward(PIECE);
            return soon.get();
        });
        rig.poller.errand(errand);
        return errand;
    }

    /** A minute of 40 reads a second of 10 ms each, where a piece of 30 ms is always waiting. */
    @Test
    void withAnErrandThatAlwaysHasWorkEveryPollIsMadeInTurn() {
        PollRig rig = rig(every(40, Duration.ofSeconds(2)));
        Errand errand = errand(rig, List::of);
        rig.runFor(Duration.ofSeconds(10));
        done.clear();
        errand.ready = OptionalLong.of(rig.clock.ticks());
        rig.runFor(Duration.ofMinutes(1));
        for (int i = 0; i < 40; i++) {
            assertThat(done.stream().filter(Integer.toString(2 * i)::equals)).hasSizeBetween(29, 31);
        }
        assertThat(done.stream().filter("E"::equals)).hasSizeGreaterThan(1_000);
        assertThat(rig.poller.paces().stream().mapToLong(IntervalPace::skipped).sum())
                .isZero();
    }

    @Test
    void whilePollsAreDueNoTwoPiecesFollowEachOtherAndEveryReadKeepsItsPlace() {
        PollRig rig = rig(every(30, Duration.ofMillis(100)));
        Errand errand = errand(rig, List::of);
        rig.runFor(Duration.ofSeconds(2));
        done.clear();
        errand.ready = OptionalLong.of(rig.clock.ticks());
        rig.runFor(Duration.ofSeconds(30));
        for (int i = 1; i < done.size(); i++) {
            assertThat(done.subList(i - 1, i + 1)).isNotEqualTo(List.of("E", "E"));
        }
        // Of 40 ms for a poll and a piece: 750 polls, 25 of each read.
        for (int i = 0; i < 30; i++) {
            assertThat(done.stream().filter(Integer.toString(2 * i)::equals)).hasSizeBetween(24, 26);
        }
    }

    @Test
    void aPieceComesBeforeWhatAToolAsksFor() {
        PollRig rig = rig(every(1, Duration.ofHours(1)));
        Errand errand = errand(rig, List::of);
        rig.runFor(Duration.ofSeconds(1));
        done.clear();
        errand.ready = OptionalLong.of(rig.clock.ticks());
        Future<Outcome> tool =
                rig.poller.tools().ask(new ReadRequest(new UnitId(2), RegisterTable.HOLDING_REGISTER, 77, 1));
        rig.poller.step();
        rig.poller.step();
        assertThat(done).containsExactly("E", "77");
        assertThat(tool).isDone();
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 700})
    void theLineIsDueWhenTheErrandIs(int millis) {
        PollRig rig = rig(every(1, Duration.ofHours(1)));
        Errand errand = errand(rig, List::of);
        rig.runFor(Duration.ofSeconds(1));
        long ready = rig.clock.ticks() + Duration.ofMillis(millis).toNanos();
        errand.ready = OptionalLong.of(ready);
        done.clear();
        if (millis > 0) {
            assertThat(rig.poller.step()).isEqualTo(ready);
            assertThat(done).isEmpty();
            rig.clock.forward(Duration.ofMillis(millis));
        }
        rig.poller.step();
        assertThat(done).containsExactly("E");
    }

    @Test
    void whoWakesItMakesTheLinesThreadTakeItsNextStep() {
        PollRig rig = rig(every(1, Duration.ofHours(1)));
        AtomicInteger woken = new AtomicInteger();
        rig.poller.errandWoken();
        rig.poller.whenErrandWoken(woken::incrementAndGet);
        rig.poller.errandWoken();
        assertThat(woken).hasValue(1);
    }

    @Test
    void whatMayHaveChangedIsReadSoonWhateverItsInterval() {
        PollRig rig =
                rig(Points.every("slow", 10, Duration.ofHours(1)), Points.every("other", 90, Duration.ofHours(1)));
        Errand errand = errand(rig, () -> List.of(rig.points.get(0)));
        rig.runFor(Duration.ofMinutes(1));
        done.clear();
        errand.ready = OptionalLong.of(rig.clock.ticks());
        rig.poller.step();
        errand.ready = OptionalLong.empty();
        rig.runFor(Duration.ofSeconds(1));
        assertThat(done).containsExactly("E", "10");
        rig.runFor(Duration.ofHours(1));
        assertThat(done).hasSize(4).contains("90");
    }

    @Test
    void theTimeOfAnErrandCountsInTheLoadOfTheLine() {
        PollRig rig = rig(every(1, Duration.ofHours(1)));
        Errand errand = errand(rig, List::of);
        rig.runFor(Duration.ofMinutes(3));
        for (int i = 0; i < 600; i++) {
            errand.ready = OptionalLong.of(rig.clock.ticks());
            rig.poller.step();
            errand.ready = OptionalLong.empty();
            rig.runFor(Duration.ofMillis(170));
        }
        // 30 of 200 ms.
        assertThat(rig.poller.load().orElseThrow()).isCloseTo(0.15, within(0.01));
    }

    @Test
    void withoutAConnectionThereIsNoErrand() {
        PollRig rig = rig(every(1, Duration.ofSeconds(1)));
        Errand errand = errand(rig, List::of);
        errand.ready = OptionalLong.of(rig.clock.ticks());
        rig.transport.answer = request -> {
            rig.clock.forward(Duration.ofMillis(10));
            return new Outcome.NotConnected("Connection refused");
        };
        rig.runFor(Duration.ofMinutes(1));
        assertThat(done).isEmpty();
        rig.transport.answer = rig::answered;
        rig.runFor(Duration.ofSeconds(6));
        assertThat(done).contains("E");
    }

    /** As silent writes of it are: they are no reads of the controller. */
    @Test
    void anErrandThatBringsNothingLosesNoController() {
        PollRig rig = rig(every(1, Duration.ofSeconds(1)));
        Errand errand = errand(rig, List::of);
        errand.ready = OptionalLong.of(rig.clock.ticks());
        rig.runFor(Duration.ofMinutes(1));
        assertThat(rig.table.link(rig.points.get(0).controller()).state()).isEqualTo(State.UP);
    }

    @Test
    void aLostControllerThatAnswersAnErrandIsBack() {
        PollRig rig = new PollRig(Points.controller(0, "boiler-1", 1, every(1, Duration.ofSeconds(1))));
        rig.transport.answer = rig::answered;
        rig.runFor(Duration.ofSeconds(1));
        rig.transport.answer = rig::silent;
        rig.runFor(Duration.ofMinutes(10));
        assertThat(rig.table.link(rig.points.get(0).controller()).state()).isEqualTo(State.DOWN);
        boolean[] replies = {false};
        Errand errand = new Errand(() -> {
            rig.clock.forward(PIECE);
            rig.transport.replies += replies[0] ? 1 : 0;
            return List.of();
        });
        rig.poller.errand(errand);
        errand.ready = OptionalLong.of(rig.clock.ticks());
        rig.poller.step();
        assertThat(rig.table.link(rig.points.get(0).controller()).state()).isEqualTo(State.DOWN);
        rig.runFor(Duration.ofMillis(1));
        replies[0] = true;
        rig.runFor(Duration.ofMillis(100));
        assertThat(rig.table.link(rig.points.get(0).controller()).state()).isEqualTo(State.UP);
    }

    /** A defect of whoever runs the errand must not keep the line from being read. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void anErrandThatFailsRestsAndStopsNoPoll(boolean whenAsked) {
        try (Told told = new Told()) {
            PollRig rig = rig(every(1, Duration.ofSeconds(1)));
            AtomicInteger tries = new AtomicInteger();
            rig.poller.errand(new LineErrand() {
                @Override
                public OptionalLong readyAt(long now) {
                    return whenAsked ? OptionalLong.of(fail()) : OptionalLong.of(now);
                }

                @Override
                public List<SitePoint> run() {
                    fail();
                    return List.of();
                }

                private long fail() {
                    tries.incrementAndGet();
                    throw new IllegalStateException("a defect");
                }
            });
            rig.runFor(Duration.ofMinutes(1));
            assertThat(done).hasSizeBetween(60, 62);
            assertThat(tries.get()).isBetween(6, 8);
        }
    }
}
