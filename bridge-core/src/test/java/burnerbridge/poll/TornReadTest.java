package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.agenda.Gathering;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Limits;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.Scaling;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

/** Values of two words from a controller that updates its words one after the other. */
class TornReadTest {
    private static final PointFormat UINT32 = new PointFormat.Whole(32, false, WordOrder.HIGH_WORD_FIRST);

    private final HandClock clock = new HandClock();
    private final Deque<int[]> replies = new ArrayDeque<>();
    private final FakeTransport transport = new FakeTransport(this::reply);

    private Outcome reply(ReadRequest request) {
        Outcome.Answered answered = new Outcome.Answered(Registers.of(replies.remove()), clock.now());
        clock.forward(Duration.ofMillis(10));
        return answered;
    }

    private void willReply(int... words) {
        replies.add(words);
    }

    private record Rig(LinePoller poller, ValueTable table, SitePoint point) {
        Reading reading() {
            return table.reading(point);
        }
    }

    private Rig rig(Consistency consistency) {
        ControllerDefinition boiler = Points.controller(
                0, "boiler-1", 1, Points.limited(UINT32, Scaling.NONE, States.NONE, Limits.NONE, consistency));
        List<SitePoint> points = Points.of(boiler);
        ValueTable table = new ValueTable(points, List.of(boiler));
        LinePlan plan = LinePlan.all(List.of(Points.line()), points).get(0);
        return new Rig(new LinePoller(plan, transport, table, clock), table, points.get(0));
    }

    private Rig twice() {
        return rig(new Consistency(true, OptionalInt.empty()));
    }

    private Rig apart() {
        return rig(new Consistency(false, OptionalInt.of(187)));
    }

    private void steps(Rig rig, int count) {
        for (int i = 0; i < count; i++) {
            rig.poller().step();
        }
    }

    private List<Integer> asked() {
        return transport.asked.stream().map(ReadRequest::first).toList();
    }

    @Test
    void twoReadingsThatAgreeMakeAValueAsOldAsTheFirst() {
        Rig rig = twice();
        willReply(1, 65535);
        willReply(1, 65535);
        steps(rig, 2);
        assertThat(rig.reading().value()).isEqualTo(IntegerValue.of(131071));
        assertThat(rig.reading().askedAt()).isNotNull();
        assertThat(clock.ticks()
                        - java.util.Objects.requireNonNull(rig.reading().askedAt())
                                .ticks())
                .isEqualTo(Duration.ofMillis(20).toNanos());
    }

    /** 0001 FFFF becomes 0002 0000; between the two words it reads as 0001 0000. */
    @Test
    void aTornValueIsNeverShown() {
        Rig rig = twice();
        willReply(1, 0);
        willReply(2, 0);
        steps(rig, 2);
        assertThat(rig.reading().reason()).isEqualTo(Reason.NOT_READ_YET);
        willReply(2, 0);
        steps(rig, 1);
        assertThat(rig.reading().value()).isEqualTo(IntegerValue.of(131072));
        assertThat(asked()).hasSize(3);
    }

    @Test
    void aValueThatNeverAgreesIsLeftUntilItIsDueAgainAndKeepsTheOldOne() {
        Rig rig = twice();
        willReply(0, 7);
        willReply(0, 7);
        steps(rig, 2);
        clock.forward(Duration.ofSeconds(2));
        for (int i = 0; i < Gathering.MOST_REPLIES; i++) {
            willReply(0, 100 + i);
        }
        steps(rig, Gathering.MOST_REPLIES);
        assertThat(rig.reading().value()).isEqualTo(IntegerValue.of(7));
        long due = rig.poller().step();
        assertThat(due - clock.ticks()).isGreaterThan(Duration.ofSeconds(1).toNanos());
        assertThat(replies).isEmpty();
    }

    @Test
    void wordsThatAreApartAreReadHighLowHigh() {
        Rig rig = apart();
        willReply(3);
        willReply(9);
        willReply(3);
        steps(rig, 3);
        assertThat(asked()).containsExactly(0, 187, 0);
        assertThat(rig.reading().value()).isEqualTo(IntegerValue.of(3 * 65536 + 9));
    }

    @Test
    void aHighWordThatMovedMeanwhileIsReadWithTheLowOneAgain() {
        Rig rig = apart();
        willReply(3);
        willReply(0);
        willReply(4);
        steps(rig, 3);
        assertThat(rig.reading().reason()).isEqualTo(Reason.NOT_READ_YET);
        willReply(1);
        willReply(4);
        steps(rig, 2);
        assertThat(asked()).containsExactly(0, 187, 0, 187, 0);
        assertThat(rig.reading().value()).isEqualTo(IntegerValue.of(4 * 65536 + 1));
    }

    @Test
    void troubleInTheMiddleBeginsAnew() {
        Rig rig = apart();
        willReply(3);
        steps(rig, 1);
        transport.answer = r -> FakeTransport.silent(clock);
        steps(rig, 1);
        transport.answer = this::reply;
        clock.forward(Duration.ofSeconds(2));
        Arrays.stream(new int[] {5, 6, 5}).forEach(this::willReply);
        steps(rig, 3);
        assertThat(asked()).containsExactly(0, 187, 0, 187, 0);
        assertThat(rig.reading().value()).isEqualTo(IntegerValue.of(5 * 65536 + 6));
    }
}
