package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Fault;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.plan.LinePlan;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.GroupCount;
import burnerbridge.site.Meaning;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointOptions;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Scaling;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.table.ChangeFeed;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import burnerbridge.table.ControllerLink.State;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LinePollerTest {
    private final HandClock clock = new HandClock();
    private final ControllerDefinition first =
            Points.controller(0, "boiler-1", 1, Points.uint16("starts", 10), Points.uint16("hours", 12));
    private final ControllerDefinition second = Points.controller(1, "boiler-2", 2, Points.uint16("starts", 10));
    private final List<SitePoint> points = Points.of(first, second);
    private final ValueTable table = new ValueTable(points, List.of(first, second));
    private final FakeTransport transport = new FakeTransport(this::number);
    private final LinePoller poller =
            new LinePoller(LinePlan.all(List.of(Points.line()), points).get(0), transport, table, clock);

    private Outcome number(ReadRequest request) {
        return new Outcome.Answered(
                Registers.of(request.first() + 100 * request.unit().number()), clock.now());
    }

    /** Steps through everything that is due now. */
    private long stepAll() {
        long due = poller.step();
        while (due - clock.ticks() <= 0) {
            due = poller.step();
        }
        return due;
    }

    private void runFor(Duration duration) {
        long end = clock.ticks() + duration.toNanos();
        for (long due = stepAll(); due - end <= 0; due = stepAll()) {
            clock.forward(Duration.ofNanos(due - clock.ticks()));
        }
        clock.forward(Duration.ofNanos(end - clock.ticks()));
    }

    private Reason reason(int point) {
        return table.reading(points.get(point)).reason();
    }

    @Test
    void everyPointIsReadAtOnceAndThenAtItsInterval() {
        stepAll();
        assertThat(transport.asked).hasSize(3);
        assertThat(table.reading(points.get(1)).value()).isEqualTo(IntegerValue.of(112));
        assertThat(table.reading(points.get(2)).value()).isEqualTo(IntegerValue.of(210));
        runFor(Duration.ofSeconds(2));
        transport.asked.clear();
        runFor(Duration.ofSeconds(20));
        assertThat(transport.asked).hasSize(30);
        assertThat(table.link(first).state()).isEqualTo(State.UP);
    }

    @Test
    void aStepDoesAtMostOneTransaction() {
        poller.step();
        assertThat(transport.asked).hasSize(1);
    }

    @Test
    void aSlowLineDropsBehindWithoutABurst() {
        stepAll();
        clock.forward(Duration.ofSeconds(20));
        transport.asked.clear();
        stepAll();
        assertThat(transport.asked).hasSize(3);
    }

    @Test
    void aControllerIsLostAfterThreeSilencesAndThenProbedAtAGrowingPace() {
        runFor(Duration.ofSeconds(10));
        transport.answer = r -> r.unit().number() == 1 ? FakeTransport.silent(clock) : number(r);
        transport.asked.clear();
        while (asksOfFirst() < 2) {
            poller.step();
            clock.forward(Duration.ofMillis(10));
        }
        assertThat(table.link(first).state()).isEqualTo(State.UP);
        while (asksOfFirst() < 3) {
            poller.step();
            clock.forward(Duration.ofMillis(10));
        }
        assertThat(table.link(first).state()).isEqualTo(State.DOWN);
        assertThat(table.link(first).cause()).isEqualTo(Cause.NO_REPLY);
        assertThat(table.link(second).state()).isEqualTo(State.UP);

        // One lost controller at a time-out of 1 s: one probe in 50 s is 2 % of the line's time.
        runFor(Duration.ofMinutes(10));
        transport.asked.clear();
        runFor(Duration.ofSeconds(200));
        assertThat(asksOfFirst()).isEqualTo(4);
        assertThat(transport.asked.stream().filter(r -> r.unit().number() == 2)).hasSizeBetween(99, 101);
    }

    private long asksOfFirst() {
        return transport.asked.stream().filter(r -> r.unit().number() == 1).count();
    }

    @Test
    void aControllerThatAnswersAgainIsReadInFullAtOnce() {
        stepAll();
        transport.answer = r -> FakeTransport.silent(clock);
        runFor(Duration.ofMinutes(2));
        assertThat(table.link(first).state()).isEqualTo(State.DOWN);
        transport.answer = this::number;
        runFor(Duration.ofSeconds(101));
        assertThat(table.link(first).state()).isEqualTo(State.UP);
        assertThat(table.link(second).state()).isEqualTo(State.UP);
        assertThat(points).allSatisfy(p -> assertThat(table.reading(p).isGood()).isTrue());
    }

    @Test
    void aReplyThatIsWrongIsNeverAValue() {
        stepAll();
        transport.answer = r -> new Outcome.Broken(Fault.UNIT, "unit must be 1 (was 2)", clock.now());
        runFor(Duration.ofSeconds(8));
        assertThat(table.link(first).cause()).isEqualTo(Cause.NO_REPLY);
        assertThat(table.link(first).detail()).contains("unit must be 1 (was 2)");
    }

    @Test
    void aReplyThatTookLongerThanItsReadingHoldsIsNeverGood() {
        stepAll();
        ChangeFeed feed = table.subscribe();
        transport.answer = r -> {
            Outcome asked = number(r);
            clock.forward(Duration.ofSeconds(10));
            return asked;
        };
        clock.forward(Duration.ofSeconds(2));
        poller.step();
        assertThat(List.of(0, 1, 2))
                .filteredOn(point -> reason(point) == Reason.NO_REPLY)
                .hasSize(1);
        assertThat(feed.drain()).hasSize(1);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 8})
    void aRefusalIsToldAtItsPointsOnly(int code) {
        transport.answer = r -> r.first() == 12 ? new Outcome.Refused(code, clock.now()) : number(r);
        stepAll();
        assertThat(reason(0)).isEqualTo(Reason.NONE);
        assertThat(reason(1)).isEqualTo(Reason.REFUSED);
        assertThat(table.reading(points.get(1)).exceptionCode()).isEqualTo(code);
        assertThat(table.link(first).state()).isEqualTo(State.UP);
    }

    @ParameterizedTest
    @ValueSource(ints = {5, 6})
    void aBusyControllerKeepsItsReadingsUntilTheyAreTooOld(int code) {
        stepAll();
        transport.answer = r -> new Outcome.Refused(code, clock.now());
        runFor(Duration.ofSeconds(4));
        assertThat(reason(0)).isEqualTo(Reason.NONE);
        assertThat(table.link(first).state()).isEqualTo(State.UP);
    }

    @ParameterizedTest
    @ValueSource(ints = {10, 11})
    void aUnitThatItsGatewayCannotReachIsLost(int code) {
        stepAll();
        transport.answer = r -> new Outcome.Refused(code, clock.now());
        runFor(Duration.ofSeconds(8));
        assertThat(reason(0)).isEqualTo(Reason.NONE);
        assertThat(table.link(first).cause()).isEqualTo(Cause.NO_REPLY);
        assertThat(table.link(first).detail()).contains("exception " + code);
    }

    @Test
    void aLineThatIsNotConnectedIsTriedForEverAndTakesAllItsControllersDown() {
        transport.answer = r -> new Outcome.NotConnected("127.0.0.1:502: Connection refused");
        runFor(Duration.ofSeconds(60));
        assertThat(transport.asked).hasSizeBetween(13, 15);
        assertThat(table.link(first).cause()).isEqualTo(Cause.LINE_DOWN);
        assertThat(table.link(second).cause()).isEqualTo(Cause.LINE_DOWN);
        assertThat(reason(0)).isEqualTo(Reason.NOT_READ_YET);

        transport.answer = this::number;
        runFor(Duration.ofSeconds(6));
        assertThat(table.link(second).state()).isEqualTo(State.UP);
        assertThat(reason(2)).isEqualTo(Reason.NONE);
    }

    @Test
    void theLinkIsToldOnceWhenItIsLostAndOnceWhenItIsBack() {
        stepAll();
        var feed = table.subscribe();
        transport.answer = r -> FakeTransport.silent(clock);
        runFor(Duration.ofMinutes(1));
        ControllerLink down = table.link(first);
        runFor(Duration.ofMinutes(1));
        assertThat(table.link(first)).isSameAs(down);
        assertThat(feed.drain()).hasSize(2);
    }

    @Test
    void aPollerThatWasClosedSettlesNothing() {
        transport.answer = r -> {
            poller.close();
            return new Outcome.NotConnected("this line was closed");
        };
        poller.step();
        assertThat(transport.closed).isTrue();
        assertThat(table.link(first).state()).isEqualTo(State.UNKNOWN);
    }

    /** It is on no line, though it has points in the same table. */
    @Test
    void aGroupOfControllersIsNotAsked() {
        PointDefinition flame = Points.point(
                        "flame", RegisterTable.COIL, 10, new PointFormat.Bit(), Scaling.NONE, States.NONE)
                .with(PointOptions.meaning(Meaning.FLAME));
        ControllerDefinition boiler = Points.controller(0, "boiler-1", 1, flame);
        ControllerDefinition plant = new ControllerDefinition(
                1,
                new Name("plant"),
                new ControllerDefinition.OfMembers(List.of(boiler)),
                new ControllerType(new Name("plant"), List.of(GroupCount.FIRING.point(List.of(boiler)))),
                0);
        PollRig grouped = new PollRig(boiler, plant);
        grouped.runFor(Duration.ofSeconds(10));
        assertThat(grouped.table.reading(grouped.points.get(0)).reason()).isNotEqualTo(Reason.NOT_READ_YET);
        assertThat(grouped.table.reading(grouped.points.get(1)).reason()).isEqualTo(Reason.NOT_READ_YET);
        assertThat(grouped.transport.asked).allMatch(request -> request.first() == 10);
    }
}
