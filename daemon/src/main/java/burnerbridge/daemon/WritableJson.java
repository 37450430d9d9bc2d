package burnerbridge.daemon;

import burnerbridge.site.AddressRange;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** One entry of {@code writable} of {@code check --json}. */
final class WritableJson {
    private final Writable one;

    WritableJson(Writable one) {
        this.one = one;
    }

    String text() {
        AddressRange written = one.definition().addresses().get(0);
        Optional<Purpose.Asked> asked = one.permit().asked();
        Optional<Purpose.Beat> beat = one.permit().beat();
        JsonMembers json = new JsonMembers()
                .put("point", one.point().id())
                .put("role", one.definition().role().word())
                .put("file", one.origin().file())
                .number("line", one.origin().line())
                .put("source", one.origin().source())
                .put("on-line", one.controller().line())
                .number("unit", one.controller().unit().number())
                .put("table", written.table().word())
                .put("address", one.definition().manualAddress())
                .number("wire-address", written.first())
                .number("addresses", written.count())
                .put("format", one.definition().format().word())
                .number("function", one.permit().function())
                .filled("shown-unit", one.definition().unit().symbol())
                .optional("range", asked.flatMap(a -> range(a.allowed())))
                .optional("states", asked.flatMap(a -> states(a.allowed())))
                .optional("step", asked.flatMap(Purpose.Asked::step))
                .optional(
                        "interval-ms",
                        asked.map(a -> BigDecimal.valueOf(a.interval().toMillis())))
                .put("storage", one.permit().storage().isVolatile() ? "volatile" : "non-volatile")
                .put("lifetime-writes", lifetime());
        return addWho(json, asked, beat).put("reason", one.permit().reason()).text();
    }

    private JsonMembers addWho(JsonMembers json, Optional<Purpose.Asked> asked, Optional<Purpose.Beat> beat) {
        Optional<Silence> silence = asked.flatMap(Purpose.Asked::silence);
        return json.put(
                        "bacnet",
                        asked.map(a -> a.from().bacnet().stream()
                                        .map(Object::toString)
                                        .toList())
                                .orElse(List.of()))
                .put("mqtt", asked.map(a -> a.from().mqtt()).orElse(false))
                .optional(
                        "mqtt-priority",
                        asked.filter(a -> a.from().mqtt()).map(a -> BigDecimal.valueOf(a.mqttPriority())))
                .optional(
                        "silence-after-ms",
                        silence.map(s -> BigDecimal.valueOf(s.after().toMillis())))
                .optional("on-silence", silence.map(WritableJson::action))
                .optional("every-ms", beat.map(b -> BigDecimal.valueOf(b.every().toMillis())))
                .optional("pattern", beat.map(b -> Writable.pattern(b.pattern())));
    }

    private @Nullable BigDecimal lifetime() {
        return one.permit().storage().isVolatile()
                ? null
                : BigDecimal.valueOf(one.permit().storage().lifetimeWrites().orElseThrow());
    }

    private static Optional<List<BigDecimal>> range(Allowed allowed) {
        return allowed instanceof Allowed.Range range
                ? Optional.of(List.of(range.low(), range.high()))
                : Optional.empty();
    }

    private static Optional<List<BigDecimal>> states(Allowed allowed) {
        return allowed instanceof Allowed.States states
                ? Optional.of(states.numbers().stream().map(BigDecimal::valueOf).toList())
                : Optional.empty();
    }

    /** What is written; nothing where the controller lets the demand go by itself. */
    private static Map<String, @Nullable Object> action(Silence silence) {
        Optional<BigDecimal> value = Writable.written(silence);
        return new JsonMembers()
                .put("action", value.isPresent() ? "write" : "release")
                .optional("value", value)
                .map();
    }
}
