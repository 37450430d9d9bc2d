package burnerbridge.scan;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.BitValue;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Meaning;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.State;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/** What controllers that answer do not tell, or tell of themselves: one trouble a controller and kind, not one a point. */
public final class PointTroubles implements HealthSource {
    /** Everything is read once within this time after a controller answers, or something keeps it from being. */
    private static final Duration TIME_TO_READ = Duration.ofMinutes(1);

    private static final int MOST_NAMES = 8;

    private final ValueTable table;
    private final BridgeClock clock;

    public PointTroubles(ValueTable table, BridgeClock clock) {
        this.table = table;
        this.clock = clock;
    }

    /** What is said of all points of a controller that have one reason. */
    private record Kind(Place place, Weight weight, String seen, String lookAt) {}

    private static final Map<Reason, Kind> KINDS = kinds();

    private static Map<Reason, Kind> kinds() {
        Map<Reason, Kind> kinds = new EnumMap<>(Reason.class);
        kinds.put(
                Reason.REFUSED,
                new Kind(
                        Place.SITE,
                        Weight.DEGRADED,
                        "is refused by the controller",
                        "table, address and numbering of the rows, beside the manual"));
        kinds.put(
                Reason.NO_REPLY,
                new Kind(
                        Place.BURNER,
                        Weight.DEGRADED,
                        "stays without an answer while others have one",
                        "address and length of the rows, beside the manual"));
        kinds.put(
                Reason.NOT_READ_YET,
                new Kind(
                        Place.BURNER,
                        Weight.DEGRADED,
                        "could not be read since the start",
                        "what the log says of the line, and 'values --plan'"));
        kinds.put(
                Reason.UNKNOWN_STATE,
                new Kind(
                        Place.SITE,
                        Weight.NOTICE,
                        "is in a state that the list has no text for",
                        "the states of the rows, beside the manual"));
        String sensor = "the sensor and its wiring, at the burner";
        kinds.put(Reason.NO_SENSOR, new Kind(Place.BURNER, Weight.NOTICE, "has no sensor", sensor));
        kinds.put(Reason.OVER_RANGE, new Kind(Place.BURNER, Weight.NOTICE, "is over its valid range", sensor));
        kinds.put(Reason.UNDER_RANGE, new Kind(Place.BURNER, Weight.NOTICE, "is under its valid range", sensor));
        String format = "format and order of the rows, beside the manual";
        kinds.put(Reason.NOT_A_NUMBER, new Kind(Place.SITE, Weight.NOTICE, "is no number", format));
        kinds.put(
                Reason.UNREADABLE, new Kind(Place.SITE, Weight.NOTICE, "holds what its format does not know", format));
        return kinds;
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        long now = clock.ticks();
        Map<ControllerDefinition, Map<Reason, List<SitePoint>>> found = new LinkedHashMap<>();
        for (SitePoint point : table.points()) {
            ControllerDefinition controller = point.controller();
            if (controller.isGroup()) {
                continue;
            }
            Reading reading = table.reading(point);
            ControllerLink link = table.link(controller);
            if (link.state() != State.UP) {
                continue;
            }
            if (isLockout(point, reading)) {
                troubles.accept(lockedOut(point, reading));
            }
            if (KINDS.containsKey(reading.reason()) && !isEarly(reading, link, now)) {
                found.computeIfAbsent(controller, c -> new EnumMap<>(Reason.class))
                        .computeIfAbsent(reading.reason(), r -> new ArrayList<>())
                        .add(point);
            }
        }
        found.forEach((controller, reasons) ->
                reasons.forEach((reason, points) -> troubles.accept(of(controller, reason, points))));
    }

    private static boolean isEarly(Reading reading, ControllerLink link, long now) {
        return reading.reason() == Reason.NOT_READ_YET
                && (link.since() == null || link.since().ageAt(now) < TIME_TO_READ.toNanos());
    }

    private static boolean isLockout(SitePoint point, Reading reading) {
        return point.definition()
                        .options()
                        .meaning()
                        .filter(Meaning.LOCKOUT::equals)
                        .isPresent()
                && reading.isGood()
                && reading.value() instanceof BitValue bit
                && bit.on();
    }

    private static Trouble lockedOut(SitePoint point, Reading reading) {
        return new Trouble(
                Place.BURNER,
                "controller " + point.controller().name(),
                "has locked out, as " + point.definition().name() + " says",
                "the burner itself: a lockout wants a licensed person who is there",
                null,
                Weight.NOTICE);
    }

    private static Trouble of(ControllerDefinition controller, Reason reason, List<SitePoint> points) {
        Kind kind = KINDS.getOrDefault(reason, new Kind(Place.BURNER, Weight.NOTICE, reason.word(), ""));
        String names = String.join(
                ", ",
                points.stream()
                        .limit(MOST_NAMES)
                        .map(point -> point.definition().name().text())
                        .toList());
        String more = points.size() > MOST_NAMES ? " and " + (points.size() - MOST_NAMES) + " more" : "";
        return new Trouble(
                kind.place(),
                "controller " + controller.name(),
                (points.size() == 1 ? "" : "each of ") + names + more + " " + kind.seen(),
                kind.lookAt(),
                null,
                kind.weight());
    }
}
