package burnerbridge.derive;

import burnerbridge.model.BitValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Stamp;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.GroupCount;
import burnerbridge.site.Name;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import java.util.Comparator;
import java.util.List;

/**
 * One count of one group: it has the worst quality of what it counts, with that one's reason, and a number only
 * where every bit is known.
 */
final class Count {
    private final SitePoint point;
    private final ValueTable table;
    private final List<SitePoint> inputs;

    Count(SitePoint point, ValueTable table) {
        this.point = point;
        this.table = table;
        GroupCount count = GroupCount.of(point.definition());
        this.inputs = point.controller().members().stream()
                .map(member -> input(member, count, table))
                .toList();
    }

    private static SitePoint input(ControllerDefinition member, GroupCount count, ValueTable table) {
        Name name = count.counted(member)
                .orElseThrow(() -> new IllegalArgumentException(
                        member.name() + " tells no " + count.meaning().word()))
                .name();
        return table.points().stream()
                .filter(p -> p.controller().ordinal() == member.ordinal())
                .filter(p -> p.definition().name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(member.name() + "." + name + " is not there"));
    }

    SitePoint point() {
        return point;
    }

    /** What may be said now. */
    Reading reading() {
        List<Reading> readings = inputs.stream().map(table::reading).toList();
        Reading worst =
                readings.stream().max(Comparator.comparing(Reading::quality)).orElseThrow();
        Reading.Good lastGood = table.reading(point).newestGood().orElse(null);
        Stamp oldest = worst.askedAt();
        for (Reading reading : readings) {
            Stamp askedAt = reading.askedAt();
            if (askedAt == null || oldest == null) {
                return new Reading(null, Reason.NOT_READ_YET, null, null, 0, lastGood);
            }
            oldest = askedAt.ticks() - oldest.ticks() < 0 ? askedAt : oldest;
        }
        boolean known = worst.reason() == Reason.NONE || worst.reason() == Reason.UNKNOWN_STATE;
        return new Reading(
                known ? IntegerValue.of(readings.stream().filter(Count::isOn).count()) : null,
                worst.reason(),
                known ? oldest : worst.askedAt(),
                null,
                worst.exceptionCode(),
                worst.isGood() ? null : lastGood);
    }

    private static boolean isOn(Reading reading) {
        return reading.value() instanceof BitValue bit && bit.on();
    }
}
