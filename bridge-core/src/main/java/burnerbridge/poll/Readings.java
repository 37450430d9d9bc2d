package burnerbridge.poll;

import burnerbridge.decode.Decoder;
import burnerbridge.line.Outcome;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.Role;
import burnerbridge.site.SitePoint;
import burnerbridge.table.Conditions;
import burnerbridge.table.ValueTable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a read brought, as readings of its points in the value table. */
final class Readings {
    private final ValueTable table;
    private final Conditions conditions;
    private final BridgeClock clock;

    /**
     * What a reply said of other reads.
     *
     * @param another the controller is another than before, or has other firmware
     * @param opened points that mean something from now on, whose readings of before are of no use
     */
    record News(boolean another, List<SitePoint> opened) {}

    Readings(ValueTable table, BridgeClock clock) {
        this.table = table;
        this.conditions = table.conditions();
        this.clock = clock;
    }

    /** Publishes what was read. Of one reply, what others hang on comes before them, to be held against the newest. */
    News answered(ReadBlock block, Outcome.Answered answered) {
        boolean another = false;
        List<SitePoint> opened = new ArrayList<>();
        for (boolean conditional : new boolean[] {false, true}) {
            for (SitePoint point : block.points()) {
                if (conditions.isConditional(point) == conditional) {
                    Reading before = table.reading(point);
                    Reading reading = notOlderThanAllowed(point, decoded(block, point, answered));
                    opened.addAll(publish(point, reading));
                    another |= point.definition().role() == Role.IDENTITY && isOther(before, reading);
                }
            }
        }
        return new News(another, opened);
    }

    /** Publishes a reading; which points mean something from now on. */
    private List<SitePoint> publish(SitePoint point, Reading reading) {
        List<SitePoint> dependents = conditions.dependents(point);
        if (dependents.isEmpty()) {
            table.publish(point, conditions.held(point, reading));
            return dependents;
        }
        List<SitePoint> closed =
                dependents.stream().filter(d -> !conditions.isMet(d)).toList();
        table.publish(point, conditions.held(point, reading));
        dependents.forEach(conditions::settle);
        return closed.stream().filter(conditions::isMet).toList();
    }

    private static boolean isOther(Reading before, Reading reading) {
        return reading.isGood()
                && before.newestGood()
                        .filter(good -> !good.value().equals(reading.value()))
                        .isPresent();
    }

    private Reading decoded(ReadBlock block, SitePoint point, Outcome.Answered answered) {
        Registers raw = answered.data()
                .slice(block.offsetOf(point), point.definition().format().width());
        Reading before = table.reading(point);
        Optional<SitePoint> decimals =
                point.definition().consistency().scaleBy().flatMap(block::point);
        return decimals.isPresent()
                ? Decoder.decodeScaledBy(
                        point.definition(), raw, decoded(block, decimals.get(), answered), answered.askedAt(), before)
                : Decoder.decode(point.definition(), raw, answered.askedAt(), before);
    }

    /** A reply may take longer than its reading holds; then it is never shown as good, not for a moment. */
    private Reading notOlderThanAllowed(SitePoint point, Reading reading) {
        Stamp askedAt = reading.askedAt();
        boolean old = askedAt != null
                && askedAt.ageAt(clock.ticks())
                        >= point.definition().staleAfter().toNanos();
        return old ? reading.staled(Reason.NO_REPLY) : reading;
    }

    void refused(ReadBlock block, Outcome.Refused refused) {
        for (SitePoint point : block.points()) {
            publish(point, Reading.refused(refused.code(), refused.askedAt(), table.reading(point)));
        }
    }
}
