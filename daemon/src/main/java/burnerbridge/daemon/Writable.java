package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.point.PointOrigin;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.WritePermit;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/** A permit with the point and the row that it is about. */
record Writable(WritePermit permit, SitePoint point, PointOrigin origin) {
    /** As many digits as somebody would type, of values that were converted. */
    private static final MathContext READABLE = new MathContext(12, RoundingMode.HALF_EVEN);

    /** Those of a site, in the order of its permits. */
    static List<Writable> of(SiteFolder folder, Site site) {
        Map<PointId, SitePoint> byId =
                site.points().stream().collect(Collectors.toMap(SitePoint::id, Function.identity()));
        return site.permits().stream()
                .map(permit -> Optional.ofNullable(byId.get(permit.point()))
                        .map(point -> new Writable(permit, point, folder.origin(point)))
                        .orElseThrow(() -> new IllegalStateException(permit.point() + " is no point of this site")))
                .toList();
    }

    PointDefinition definition() {
        return point.definition();
    }

    ControllerDefinition controller() {
        return point.controller();
    }

    /** For people: a value with its unit, or a state with its text. */
    String value(BigDecimal number) {
        return definition()
                .states()
                .text(number.longValue())
                .map(text -> plain(number) + " " + text)
                .orElseGet(() -> (plain(number) + " " + definition().unitText()).strip());
    }

    /** For people: how far two values are apart. */
    String difference(BigDecimal number) {
        return (plain(number) + " " + definition().unit().symbol()).strip();
    }

    /** For people: the values that may be written. */
    String values(Allowed allowed) {
        if (allowed instanceof Allowed.States states) {
            return states.numbers().stream()
                    .map(number -> value(BigDecimal.valueOf(number)))
                    .collect(Collectors.joining(", "));
        }
        Allowed.Range range = (Allowed.Range) allowed;
        return (plain(range.low()) + ".." + plain(range.high()) + " "
                        + definition().unitText())
                .strip();
    }

    /** For people: {@code count to 255}, {@code toggle}. */
    static String pattern(Purpose.Pattern pattern) {
        return pattern instanceof Purpose.Pattern.Count count ? "count to " + count.limit() : "toggle";
    }

    /** The value that silence writes; empty where the controller lets the demand go by itself. */
    static Optional<BigDecimal> written(Silence silence) {
        return silence.action() instanceof Silence.Action.Write write ? Optional.of(write.value()) : Optional.empty();
    }

    static String plain(BigDecimal number) {
        return number.round(READABLE).stripTrailingZeros().toPlainString();
    }
}
