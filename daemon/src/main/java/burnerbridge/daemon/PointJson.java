package burnerbridge.daemon;

import burnerbridge.config.PointOrigin;
import burnerbridge.config.SiteFolder;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.site.Limits;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.unit.Linear;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** One point of {@code check --json}. */
final class PointJson {
    private final SiteFolder folder;
    private final Site site;
    private final SitePoint point;
    private final PointDefinition definition;

    PointJson(SiteFolder folder, Site site, SitePoint point) {
        this.folder = folder;
        this.site = site;
        this.point = point;
        this.definition = point.definition();
    }

    String text() {
        PointOrigin origin = folder.origin(point);
        RegisterTable read = point.controller().type().rules().readTable(definition.table());
        JsonMembers json = new JsonMembers()
                .put("id", point.id())
                .put("controller", point.controller().name())
                .put("name", definition.name())
                .put("description", definition.description())
                .put("file", origin.file())
                .number("line", origin.line())
                .put("table", definition.table().word())
                .number("function", read.readFunction())
                .put("address", definition.manualAddress())
                .number("wire-address", definition.wireAddress())
                .number("wire-address-low-word", definition.consistency().lowerWord())
                .number("addresses", definition.format().width())
                .put("format", definition.format().word())
                .filled("unit", origin.unit())
                .filled("shown-unit", definition.unit().symbol())
                .filled("basis", definition.basis().text())
                .put("value", isNumber() ? value() : null)
                .optional("scale-by", definition.consistency().scaleBy())
                .optional("valid", definition.limits().valid().map(PointJson::range))
                .put("change", definition.change())
                .put("states", states())
                .put("role", definition.role().word());
        return addSides(json).text();
    }

    private JsonMembers addSides(JsonMembers json) {
        Optional<String> why = folder.whyNoObject(point);
        boolean polled = definition.isPolled();
        return json.put(
                        "every-ms",
                        polled ? BigDecimal.valueOf(definition.every().toMillis()) : null)
                .put(
                        "stale-after-ms",
                        polled ? BigDecimal.valueOf(definition.staleAfter().toMillis()) : null)
                .put("object", why.isEmpty() ? definition.object().word() : null)
                .put("instance", why.isEmpty() ? instance() : null)
                .optional("no-object-because", why)
                .optional(
                        "topic",
                        site.mqtt().filter(m -> polled).map(mqtt -> SiteTopics.ofPoint(mqtt.root(), site, point)));
    }

    private BigDecimal instance() {
        return BigDecimal.valueOf(site.bindings().instanceOf(point).orElseThrow());
    }

    private boolean isNumber() {
        return definition.states().isEmpty()
                && (definition.format().isWhole() || definition.format() instanceof PointFormat.Floating);
    }

    /** How the value that is shown comes from the raw number: three exact numbers. */
    private Map<String, @Nullable Object> value() {
        Linear line = definition.scaling().line();
        return new JsonMembers()
                .put("times", line.numerator())
                .put("plus", line.addend())
                .put("divided-by", line.denominator())
                .map();
    }

    private static List<BigDecimal> range(Limits.Range range) {
        return List.of(range.low(), range.high());
    }

    private Map<String, String> states() {
        Map<String, String> states = new LinkedHashMap<>();
        definition.states().texts().forEach((number, text) -> states.put(Long.toString(number), text));
        return states;
    }
}
