package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import burnerbridge.table.ControllerLink.State;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Future;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ToolReadsTest {
    private static final Duration PAUSE = Duration.ofMillis(50);

    private static ControllerDefinition boiler(PointDefinition... points) {
        ControllerDefinition one = Points.controller(0, "boiler-1", 1, points);
        ReadRules rules = new ReadRules(
                true,
                new ReadLimits(20, List.of()),
                PAUSE,
                List.of(new AddressRange(RegisterTable.HOLDING_REGISTER, 500, 509)));
        return new ControllerDefinition(
                0,
                one.name(),
                one.line(),
                one.unit(),
                new ControllerType(one.type().name(), List.of(points), rules),
                one.instanceBase());
    }

    private static PollRig idle() {
        return new PollRig(boiler(Points.every("a", 10, Duration.ofHours(1))));
    }

    /** Polls take all the time that there is. */
    private static PollRig busy() {
        return new PollRig(Points.controller(
                0,
                "boiler-1",
                1,
                IntStream.range(0, 30)
                        .mapToObj(i -> Points.every("p" + i, 2 * i, Duration.ofMillis(100)))
                        .toArray(PointDefinition[]::new)));
    }

    private static ReadRequest of(int unit, int first, int count) {
        return new ReadRequest(new UnitId(unit), RegisterTable.HOLDING_REGISTER, first, count);
    }

    private static Outcome result(Future<Outcome> future) throws Exception {
        assertThat(future).isDone();
        return future.get();
    }

    @Test
    void whereNoPollIsDueAReadIsMadeAtOnce() throws Exception {
        PollRig rig = idle();
        AtomicInteger woken = new AtomicInteger();
        rig.poller.tools().whenAsked(woken::incrementAndGet);
        rig.runFor(Duration.ofSeconds(5));
        Future<Outcome> one = rig.poller.tools().ask(of(1, 700, 2));
        Future<Outcome> other = rig.poller.tools().ask(of(9, 3, 1));
        assertThat(woken).hasValue(2);
        rig.runFor(Duration.ofMillis(100));
        assertThat(((Outcome.Answered) result(one)).data().word(1)).isEqualTo(701);
        assertThat(((Outcome.Answered) result(other)).data().word(0)).isEqualTo(3);
    }

    @Test
    void whilePollsAreDueNoTwoReadsFollowEachOther() {
        PollRig rig = busy();
        rig.runFor(Duration.ofSeconds(1));
        List<Integer> units = new ArrayList<>();
        rig.transport.answer = r -> {
            units.add(r.unit().number());
            return rig.answered(r);
        };
        IntStream.range(0, ToolReads.MOST_WAITING)
                .forEach(i -> rig.poller.tools().ask(of(2, i, 1)));
        rig.runFor(Duration.ofSeconds(1));
        assertThat(units.stream().filter(unit -> unit == 2)).hasSize(ToolReads.MOST_WAITING);
        for (int i = 1; i < units.size(); i++) {
            assertThat(units.subList(i - 1, i + 1)).contains(1);
        }
    }

    @Test
    void allReadsTogetherTakeATenthOfTheTime() {
        PollRig rig = busy();
        Duration[] spent = {Duration.ZERO};
        rig.transport.answer = r -> {
            if (r.unit().number() == 1) {
                return rig.answered(r);
            }
            spent[0] = spent[0].plus(Points.line().replyTimeout());
            return rig.silent(r);
        };
        long end = rig.clock.ticks() + Duration.ofMinutes(10).toNanos();
        while (rig.clock.ticks() - end < 0) {
            tryToAsk(rig);
            rig.runFor(Duration.ofMillis(500));
        }
        // And what may be saved up, of one minute.
        assertThat(spent[0]).isBetween(Duration.ofSeconds(60), Duration.ofSeconds(67));
    }

    private static void tryToAsk(PollRig rig) {
        try {
            rig.poller.tools().ask(of(7, 0, 1));
        } catch (RejectedExecutionException e) {
            assertThat(e).hasMessageContaining("wait already");
        }
    }

    @Test
    void aBoundedNumberWaits() {
        PollRig rig = idle();
        for (int i = 0; i < ToolReads.MOST_WAITING; i++) {
            rig.poller.tools().ask(of(2, i, 1));
        }
        assertThatThrownBy(() -> rig.poller.tools().ask(of(2, 99, 1)))
                .isInstanceOf(RejectedExecutionException.class)
                .hasMessage("16 reads wait already, which is all there may be");
    }

    @Test
    void whatTheTypeForbidsIsNotAsked() {
        PollRig rig = new PollRig(
                boiler(Points.every("a", 10, Duration.ofHours(1)), Points.together("latch", 30, Consistency.ONCE)));
        ToolReads tools = rig.poller.tools();
        assertThatThrownBy(() -> tools.ask(of(1, 495, 10)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("boiler-1")
                .hasMessageContaining("reserved");
        assertThatThrownBy(() -> tools.ask(of(1, 0, 21)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("one read takes 20");
        assertThatThrownBy(() -> tools.ask(of(1, 25, 10)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("latch, which a read clears");
        // The two tables are one.
        assertThatThrownBy(() -> tools.ask(new ReadRequest(new UnitId(1), RegisterTable.INPUT_REGISTER, 30, 1)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("latch, which a read clears");
    }

    @Test
    void aReadKeepsTheTermsOfItsController() {
        PollRig rig = idle();
        rig.runFor(Duration.ofSeconds(5));
        rig.transport.asked.clear();
        rig.poller.tools().ask(new ReadRequest(new UnitId(1), RegisterTable.INPUT_REGISTER, 40, 1));
        rig.runFor(Duration.ofSeconds(1));
        assertThat(rig.transport.asked).singleElement().satisfies(request -> {
            assertThat(request.table()).isEqualTo(RegisterTable.HOLDING_REGISTER);
            assertThat(request.terms().pause()).isEqualTo(PAUSE);
        });
    }

    @Test
    void aReadThatNobodyWaitsForIsNotMade() {
        PollRig rig = idle();
        rig.runFor(Duration.ofSeconds(5));
        rig.transport.asked.clear();
        rig.poller.tools().ask(of(2, 0, 1)).cancel(false);
        rig.runFor(Duration.ofSeconds(1));
        assertThat(rig.transport.asked).isEmpty();
    }

    @Test
    void whereTheLineEndsNobodyWaits() {
        PollRig rig = idle();
        Future<Outcome> waiting = rig.poller.tools().ask(of(2, 0, 1));
        rig.poller.close();
        assertThat(waiting.isCancelled()).isTrue();
        assertThatThrownBy(() -> rig.poller.tools().ask(of(2, 0, 1)))
                .isInstanceOf(RejectedExecutionException.class)
                .hasMessage("this line was closed");
    }

    @Test
    void aLineThatIsDownSaysSo() throws Exception {
        PollRig rig = idle();
        rig.runFor(Duration.ofSeconds(1));
        rig.transport.answer = r -> new Outcome.NotConnected("Connection refused");
        Future<Outcome> waiting = rig.poller.tools().ask(of(2, 0, 1));
        rig.runFor(Duration.ofSeconds(1));
        assertThat(result(waiting)).isEqualTo(new Outcome.NotConnected("Connection refused"));
        assertThat(rig.table.link(rig.points.get(0).controller()).state()).isEqualTo(State.DOWN);
    }

    @Test
    void aLostControllerThatAnswersAToolIsBack() {
        PollRig rig = new PollRig(boiler(Points.uint16("a", 10)));
        rig.transport.answer = rig::silent;
        rig.runFor(Duration.ofMinutes(10));
        assertThat(rig.table.link(rig.points.get(0).controller()).state()).isEqualTo(State.DOWN);
        rig.transport.answer = rig::answered;
        rig.poller.tools().ask(of(1, 40, 1));
        rig.runFor(Duration.ofSeconds(1));
        assertThat(rig.table.link(rig.points.get(0).controller()).state()).isEqualTo(State.UP);
        assertThat(rig.reading(0).isGood()).isTrue();
    }
}
