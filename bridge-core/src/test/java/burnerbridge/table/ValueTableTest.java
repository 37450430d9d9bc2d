package burnerbridge.table;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

class ValueTableTest {
    private final HandClock clock = new HandClock();
    private final ControllerDefinition boiler =
            Points.controller(0, "boiler-1", 1, Points.uint16("starts", 0), Points.uint16("hours", 1));
    private final List<SitePoint> points = Points.of(boiler);
    private final ValueTable table = new ValueTable(points, List.of(boiler));
    private final StaleSweep sweep = new StaleSweep(table);

    private Reading good(int number) {
        return Reading.good(IntegerValue.of(number), clock.now(), Registers.of(number));
    }

    @Test
    void everyPointBeginsAsNotReadYet() {
        assertThat(table.reading(points.get(0)).reason()).isEqualTo(Reason.NOT_READ_YET);
        assertThat(table.link(boiler).state()).isEqualTo(ControllerLink.State.UNKNOWN);
    }

    @Test
    void aFeedTellsTheNewestOfEachPointOnce() {
        ChangeFeed feed = table.subscribe();
        table.publish(points.get(0), good(1));
        table.publish(points.get(1), good(2));
        table.publish(points.get(0), good(3));
        assertThat(feed.drain())
                .containsExactly(
                        new Change.PointChanged(points.get(0), good(3)),
                        new Change.PointChanged(points.get(1), good(2)));
        assertThat(feed.drain()).isEmpty();
    }

    @Test
    void theSameValueReadAgainIsNoChangeButIsNewerInTheTable() {
        table.publish(points.get(0), good(1));
        ChangeFeed feed = table.subscribe();
        clock.forward(Duration.ofSeconds(2));
        table.publish(points.get(0), good(1));
        assertThat(feed.drain()).isEmpty();
        assertThat(table.reading(points.get(0))).isEqualTo(good(1));
    }

    @Test
    void aFeedTellsAChangeOfReasonAndOfALink() {
        ChangeFeed feed = table.subscribe();
        table.publish(points.get(0), Reading.refused(2, clock.now(), Reading.notReadYet()));
        table.publish(boiler, ControllerLink.up(clock.now()));
        assertThat(feed.drain()).hasExactlyElementsOfTypes(Change.PointChanged.class, Change.LinkChanged.class);
    }

    @Test
    void aFeedThatEndedIsToldNothing() {
        ChangeFeed feed = table.subscribe();
        table.unsubscribe(feed);
        table.publish(points.get(0), good(1));
        assertThat(feed.drain()).isEmpty();
    }

    @Test
    void aReadingOlderThanItsAllowanceIsStale() {
        table.publish(points.get(0), good(1));
        clock.forward(Duration.ofSeconds(10).minusNanos(1));
        sweep.step(clock.ticks());
        assertThat(table.reading(points.get(0)).isGood()).isTrue();
        clock.forward(Duration.ofNanos(1));
        sweep.step(clock.ticks());
        Reading stale = table.reading(points.get(0));
        assertThat(stale.reason()).isEqualTo(Reason.NO_REPLY);
        assertThat(stale.newestGood().orElseThrow().value()).isEqualTo(IntegerValue.of(1));
    }

    @Test
    void aStaleReadingSaysWhetherTheWholeLineIsDown() {
        table.publish(points.get(0), good(1));
        table.publish(boiler, ControllerLink.down(ControllerLink.Cause.LINE_DOWN, "refused", clock.now()));
        clock.forward(Duration.ofSeconds(11));
        sweep.step(clock.ticks());
        assertThat(table.reading(points.get(0)).reason()).isEqualTo(Reason.LINE_DOWN);
    }

    @Test
    void aRefusalHoldsAsLongAsItsControllerAnswers() {
        table.publish(boiler, ControllerLink.up(clock.now()));
        table.publish(points.get(0), Reading.refused(2, clock.now(), good(1)));
        clock.forward(Duration.ofHours(1));
        sweep.step(clock.ticks());
        assertThat(table.reading(points.get(0)).reason()).isEqualTo(Reason.REFUSED);
        table.publish(boiler, ControllerLink.down(ControllerLink.Cause.NO_REPLY, "no reply", clock.now()));
        sweep.step(clock.ticks());
        assertThat(table.reading(points.get(0)).reason()).isEqualTo(Reason.NO_REPLY);
    }

    @Test
    void aStepOfTheWallClockMakesNothingStaleAndNothingFresh() {
        table.publish(points.get(0), good(1));
        clock.stepWall(Duration.ofDays(1));
        sweep.step(clock.ticks());
        assertThat(table.reading(points.get(0)).isGood()).isTrue();
        clock.stepWall(Duration.ofDays(-2));
        clock.forward(Duration.ofSeconds(11));
        sweep.step(clock.ticks());
        assertThat(table.reading(points.get(0)).isGood()).isFalse();
    }

    @Test
    void theSweepIsDueAgainWhenTheNextReadingEnds() {
        table.publish(points.get(0), good(1));
        clock.forward(Duration.ofMillis(9_700));
        assertThat(sweep.step(clock.ticks()) - clock.ticks())
                .isEqualTo(Duration.ofMillis(300).toNanos());
        clock.forward(Duration.ofMillis(300));
        assertThat(sweep.step(clock.ticks()) - clock.ticks()).isEqualTo(StaleSweep.LONGEST_PAUSE);
    }

    @Test
    void theSweepNeverReplacesAReadingThatCameMeanwhile() {
        Reading old = good(1);
        table.publish(points.get(0), old);
        table.publish(points.get(0), good(2));
        assertThat(table.replace(points.get(0), old, old.staled(Reason.NO_REPLY)))
                .isFalse();
        assertThat(table.reading(points.get(0))).isEqualTo(good(2));
    }
}
