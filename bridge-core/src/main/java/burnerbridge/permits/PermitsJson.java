package burnerbridge.permits;

import burnerbridge.control.JsonLine;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/** Permits as lines of the control socket: the first of all of them, then one for each. */
final class PermitsJson {
    private PermitsJson() {}

    static void write(JsonGenerator json, PermitsView view) {
        json.writeStringProperty("trouble", view.trouble());
        json.writeStringProperty("whyNotApproved", view.whyNotApproved());
        json.writeStringProperty("approval", view.approval());
        member(json, "differences", view.differences());
        member(json, "roleChanges", view.roleChanges());
        member(json, "identities", view.identities());
        json.writeStringProperty("hash", view.hash());
        json.writeStringProperty("head", view.head());
    }

    static void write(JsonGenerator json, PermitRow row) {
        json.writeStringProperty("point", row.point());
        json.writeStringProperty("value", row.value());
        member(json, "slots", row.slots());
        json.writeStringProperty("held", row.held());
        json.writeStringProperty("asleep", row.asleep());
        json.writeBooleanProperty("owed", row.owed());
        json.writeNumberProperty("spent", row.spent());
    }

    private static void member(JsonGenerator json, String name, Object value) {
        json.writeName(name);
        JsonLine.write(json, value);
    }

    static PermitsView view(Map<String, @Nullable Object> line, List<PermitRow> rows) {
        return new PermitsView(
                text(line, "trouble"),
                text(line, "whyNotApproved"),
                text(line, "approval"),
                texts(line, "differences"),
                texts(line, "roleChanges"),
                identities(line),
                text(line, "hash"),
                text(line, "head"),
                rows);
    }

    static PermitRow row(Map<String, @Nullable Object> line) {
        return new PermitRow(
                text(line, "point"),
                text(line, "value"),
                texts(line, "slots"),
                text(line, "held"),
                text(line, "asleep"),
                Boolean.TRUE.equals(line.get("owed")),
                line.get("spent") instanceof BigDecimal spent ? spent.longValueExact() : 0);
    }

    private static String text(Map<String, @Nullable Object> line, String name) {
        return Objects.toString(line.get(name), "");
    }

    private static List<String> texts(Map<String, @Nullable Object> line, String name) {
        return line.get(name) instanceof List<?> list
                ? list.stream().map(String::valueOf).toList()
                : List.of();
    }

    private static Map<String, String> identities(Map<String, @Nullable Object> line) {
        Map<String, String> identities = new LinkedHashMap<>();
        if (line.get("identities") instanceof Map<?, ?> map) {
            map.forEach((controller, identity) -> identities.put(String.valueOf(controller), String.valueOf(identity)));
        }
        return identities;
    }
}
