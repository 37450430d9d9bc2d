package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.point.PointOrigin;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.site.AlarmDefinition;
import burnerbridge.site.Condition;
import burnerbridge.site.Limits;
import burnerbridge.site.Meaning;
import burnerbridge.site.ObjectNames;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointOptions;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.unit.Linear;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
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
        PointOptions options = definition.options();
        JsonMembers json = new JsonMembers()
                .put("id", point.id())
                .put("controller", point.controller().name())
                .put("name", definition.name())
                .put("description", definition.description())
                .put("file", origin.file())
                .number("line", origin.line())
                .put("table", read(definition.table().word()))
                .put("function", read(BigDecimal.valueOf(read.readFunction())))
                .put("address", read(definition.manualAddress()))
                .put("wire-address", read(BigDecimal.valueOf(definition.wireAddress())))
                .number("wire-address-low-word", definition.consistency().lowerWord())
                .number(
                        "addresses",
                        definition.isDerived() ? 0 : definition.format().width())
                .put("format", definition.format().word())
                .filled("unit", origin.unit())
                .filled("shown-unit", definition.unit().symbol())
                .filled("basis", definition.basis().text())
                .put("value", isNumber() ? value() : null)
                .optional("scale-by", definition.consistency().scaleBy())
                .optional("valid", definition.limits().valid().map(PointJson::range))
                .put("change", definition.change())
                .put("states", states())
                .put("severities", severities())
                .put("role", definition.role().word())
                .put("access", options.writeOnly() ? "write" : "read")
                .optional("means", options.meaning().map(Meaning::word))
                .optional("when", options.when().map(PointJson::condition))
                .optional("alarm", options.alarm().map(PointJson::alarm));
        return addSides(json).text();
    }

    private String objectName() {
        return site.bacnet()
                .map(bacnet -> bacnet.options().objectNames())
                .orElse(ObjectNames.USUAL)
                .of(point);
    }

    private JsonMembers addSides(JsonMembers json) {
        Optional<String> why = folder.whyNoObject(point);
        boolean polled = definition.isPolled();
        boolean told = definition.hasReadings();
        return json.put(
                        "every-ms",
                        polled ? BigDecimal.valueOf(definition.every().toMillis()) : null)
                .put(
                        "stale-after-ms",
                        told ? BigDecimal.valueOf(definition.staleAfter().toMillis()) : null)
                .put("object", why.isEmpty() ? definition.object().word() : null)
                .put("instance", why.isEmpty() ? instance() : null)
                .put("object-name", why.isEmpty() ? objectName() : null)
                .optional("no-object-because", why)
                .optional(
                        "topic",
                        site.mqtt().filter(m -> told).map(mqtt -> SiteTopics.ofPoint(mqtt.root(), site, point)));
    }

    /** Null for what the bridge computes. */
    private @Nullable Object read(Object ofRegisters) {
        return definition.isDerived() ? null : ofRegisters;
    }

    private BigDecimal instance() {
        return BigDecimal.valueOf(site.bindings().instanceOf(point).orElseThrow());
    }

    private boolean isNumber() {
        return !definition.isDerived()
                && definition.states().isEmpty()
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

    /** The other point, and the controller's numbers of its states. */
    private static Map<String, @Nullable Object> condition(Condition when) {
        return new JsonMembers()
                .put("point", when.point())
                .put("in-states", numbers(when.states()))
                .map();
    }

    private static Map<String, @Nullable Object> alarm(AlarmDefinition alarm) {
        JsonMembers json = new JsonMembers()
                .put("kind", alarm.kind().word())
                .number("delay-ms", alarm.delay().toMillis());
        if (alarm instanceof AlarmDefinition.OfLimit limit) {
            return json.put("limit", limit.limit())
                    .put("deadband", limit.deadband())
                    .put("in-states", null)
                    .map();
        }
        return json.put("limit", null)
                .put("deadband", null)
                .put("in-states", numbers(((AlarmDefinition.OfStates) alarm).states()))
                .map();
    }

    private static List<BigDecimal> numbers(Set<Long> states) {
        return states.stream().sorted().map(BigDecimal::valueOf).toList();
    }

    private Map<String, String> severities() {
        Map<String, String> severities = new TreeMap<>();
        definition
                .states()
                .severities()
                .forEach((number, severity) -> severities.put(Long.toString(number), severity.word()));
        return severities;
    }

    private Map<String, String> states() {
        Map<String, String> states = new LinkedHashMap<>();
        definition.states().texts().forEach((number, text) -> states.put(Long.toString(number), text));
        return states;
    }
}
