package burnerbridge.derive;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.BitValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Quality;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Stamp;
import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.GroupCount;
import burnerbridge.site.Meaning;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointOptions;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import burnerbridge.table.StaleSweep;
import burnerbridge.table.ValueTable;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class GroupCountsTest {
    private static final ControllerType TYPE = new ControllerType(
            new Name("hot-water"), List.of(bit("flame", Meaning.FLAME), bit("lockout", Meaning.LOCKOUT)));
    private static final List<ControllerDefinition> BOILERS = List.of(boiler(0), boiler(1));
    private static final ControllerDefinition PLANT = new ControllerDefinition(
            2,
            new Name("plant"),
            new ControllerDefinition.OfMembers(BOILERS),
            new ControllerType(
                    new Name("plant"), List.of(GroupCount.FIRING.point(BOILERS), GroupCount.LOCKED_OUT.point(BOILERS))),
            0);
    private static final Site SITE = new Site(
            new Name("quillmere"),
            "",
            Optional.empty(),
            ZoneOffset.UTC,
            List.of(),
            BOILERS,
            List.of(PLANT),
            Bindings.NONE,
            Optional.empty(),
            Optional.empty());

    private final List<SitePoint> points = SITE.points();
    private final ValueTable table = new ValueTable(points, SITE.owners());
    private final GroupCounts counts = new GroupCounts(table);

    private static PointDefinition bit(String name, Meaning meaning) {
        return new PointDefinition(
                        new Name(name),
                        "",
                        RegisterTable.COIL,
                        meaning.ordinal(),
                        "1",
                        new PointFormat.Bit(),
                        Scaling.NONE,
                        Unit.NONE,
                        Role.STATUS,
                        Duration.ofSeconds(2),
                        Duration.ofSeconds(10),
                        States.NONE,
                        BigDecimal.ZERO,
                        ObjectKind.BINARY_INPUT)
                .with(PointOptions.meaning(meaning));
    }

    private static ControllerDefinition boiler(int ordinal) {
        return new ControllerDefinition(
                ordinal, new Name("boiler-" + (ordinal + 1)), new Name("annex"), new UnitId(ordinal + 1), TYPE, 0);
    }

    private static Stamp at(long seconds) {
        return new Stamp(seconds * 1_000_000_000L, Instant.ofEpochSecond(seconds), true);
    }

    private SitePoint point(String id) {
        return points.stream()
                .filter(p -> p.id().toString().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private void read(String id, boolean on, long seconds) {
        table.publish(point(id), new Reading(new BitValue(on), Reason.NONE, at(seconds), null, 0, null));
    }

    private Reading firing(long atSeconds) {
        counts.step(at(atSeconds).ticks());
        return table.reading(point("plant.firing"));
    }

    @Test
    void aCountIsGoodOnlyOnceEveryBitIsGoodAndAsOldAsTheOldest() {
        read("boiler-1.flame", true, 5);
        assertThat(firing(6).reason()).isEqualTo(Reason.NOT_READ_YET);
        read("boiler-2.flame", true, 4);
        assertThat(firing(6).value()).isEqualTo(IntegerValue.of(2));
        assertThat(firing(6).askedAt()).isEqualTo(at(4));
        read("boiler-2.flame", false, 7);
        assertThat(firing(8).value()).isEqualTo(IntegerValue.of(1));
        assertThat(firing(8).isGood()).isTrue();
    }

    @Test
    void aControllerThatIsLostMakesTheCountStaleWithTheLastNumber() {
        read("boiler-1.flame", true, 1);
        read("boiler-2.flame", true, 9);
        assertThat(firing(9).isGood()).isTrue();
        new StaleSweep(table).step(at(12).ticks());
        Reading stale = firing(12);
        assertThat(stale.quality()).isEqualTo(Quality.STALE);
        assertThat(stale.value()).isNull();
        assertThat(stale.newestGood().orElseThrow().value()).isEqualTo(IntegerValue.of(2));
        read("boiler-1.flame", false, 13);
        assertThat(firing(13).value()).isEqualTo(IntegerValue.of(1));
    }

    @Test
    void aRefusedBitIsWorseThanAStaleOneAndItsCodeIsKept() {
        read("boiler-1.flame", true, 1);
        table.publish(point("boiler-2.flame"), Reading.refused(2, at(1), Reading.notReadYet()));
        assertThat(firing(2).reason()).isEqualTo(Reason.REFUSED);
        assertThat(firing(2).exceptionCode()).isEqualTo(2);
    }

    @Test
    void withoutAChangeACountStaysAsYoungAsWhatItCounts() {
        read("boiler-1.flame", true, 1);
        read("boiler-2.flame", true, 1);
        assertThat(firing(1).askedAt()).isEqualTo(at(1));
        read("boiler-1.flame", true, 3);
        read("boiler-2.flame", true, 3);
        // The feed tells nothing of it, since a reader could not notice.
        assertThat(firing(3).askedAt()).isEqualTo(at(3));
    }

    @Test
    void aGroupAnswersWhileAllOfItDo() {
        counts.step(0);
        assertThat(table.link(PLANT).state()).isEqualTo(ControllerLink.State.UNKNOWN);
        BOILERS.forEach(boiler -> table.publish(boiler, ControllerLink.up(at(1))));
        counts.step(at(2).ticks());
        assertThat(table.link(PLANT).state()).isEqualTo(ControllerLink.State.UP);
        table.publish(BOILERS.get(1), ControllerLink.down(Cause.NO_REPLY, "three time-outs", at(3)));
        counts.step(at(4).ticks());
        assertThat(table.link(PLANT).state()).isEqualTo(ControllerLink.State.DOWN);
        assertThat(table.link(PLANT).detail()).isEqualTo("boiler-2 does not answer");
    }
}
