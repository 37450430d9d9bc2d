package burnerbridge.values;

import burnerbridge.model.Quality;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Stamp;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One point at one moment.
 *
 * @param table {@code derived} where the bridge computes it; it then has no address
 * @param address as the manual has it
 * @param wire as it travels; {@code 119+186} where its words are apart
 * @param raw the registers in hexadecimal; null where none came
 * @param value null unless good, or uncertain with a value that may be seen
 * @param exceptionCode of a refusal, 1 to 255; 0 otherwise
 * @param readAt when the registers were asked for; null where nothing was read
 * @param believed whether the clock that told {@code readAt} is believed
 * @param age since the registers of what is shown were asked for: of the last good value where the point
 *     is stale
 * @param lastGood kept while the point is not good
 * @param asked who asks for what; null where the point may not be written
 */
public record PointRow(
        String controller,
        String point,
        String table,
        String address,
        String wire,
        @Nullable String raw,
        @Nullable Shown value,
        String unit,
        Reason reason,
        int exceptionCode,
        @Nullable Instant readAt,
        boolean believed,
        @Nullable Duration age,
        @Nullable Shown lastGood,
        @Nullable Instant lastGoodReadAt,
        @Nullable AskedFor asked) {

    /**
     * A value in two forms.
     *
     * @param json made of strings, numbers, booleans, nulls and maps
     * @param text for people
     */
    public record Shown(@Nullable Object json, String text) {}

    static PointRow of(SitePoint point, Reading reading, @Nullable AskedFor asked, Stamp now) {
        PointDefinition definition = point.definition();
        Stamp askedAt = reading.askedAt();
        Reading.Good lastGood = reading.isGood() ? null : reading.lastGood();
        Stamp shownAt = reading.quality() == Quality.STALE && lastGood != null ? lastGood.askedAt() : askedAt;
        return new PointRow(
                point.controller().name().text(),
                definition.name().text(),
                definition.isDerived() ? "derived" : definition.table().word(),
                definition.manualAddress(),
                definition.isDerived() ? "" : wire(definition),
                reading.raw() == null ? null : reading.raw().hex(),
                reading.value() == null || reading.reason() == Reason.NOT_APPLICABLE
                        ? null
                        : shown(definition, reading.value()),
                definition.unit().symbol(),
                reading.reason(),
                reading.exceptionCode(),
                askedAt == null ? null : askedAt.wall(),
                now.believed() && (askedAt == null || askedAt.believed()),
                shownAt == null ? null : Duration.ofNanos(Math.max(0, shownAt.ageAt(now.ticks()))),
                lastGood == null ? null : shown(definition, lastGood.value()),
                lastGood == null ? null : lastGood.askedAt().wall(),
                asked);
    }

    private static Shown shown(PointDefinition definition, burnerbridge.model.Value value) {
        return new Shown(ValueForm.json(value, definition.states()), ValueForm.text(value, definition.states()));
    }

    private static String wire(PointDefinition definition) {
        String lower = definition.consistency().lowerWord().isPresent()
                ? "+" + definition.consistency().lowerWord().getAsInt()
                : "";
        return definition.wireAddress() + lower;
    }

    public Quality quality() {
        return reason.quality();
    }

    /** Both numberings: {@code holding-register 40101 (wire 100)}. */
    public String addressText() {
        return wire.isEmpty() ? table : table + " " + address + " (wire " + wire + ")";
    }

    /** The same row some time later. */
    PointRow older(Duration by) {
        return new PointRow(
                controller,
                point,
                table,
                address,
                wire,
                raw,
                value,
                unit,
                reason,
                exceptionCode,
                readAt,
                believed,
                age == null ? null : age.plus(by),
                lastGood,
                lastGoodReadAt,
                asked == null ? null : asked.later(by));
    }
}
