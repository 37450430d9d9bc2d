package burnerbridge.config.permit;

import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Askers;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.Optional;
import java.util.OptionalInt;

/** Reads the keys of a permit for which somebody asks. */
final class AskedKeys {
    private AskedKeys() {}

    /** Empty where something is missing or wrong; then it is told. */
    static Optional<Purpose> read(YamlMap map, Optional<PermitRow> row, PermitPart site) {
        PermitKeys.refuse(
                map,
                PermitKeys.OF_BEATING,
                "is for a heartbeat, which the bridge writes by itself"
                        + row.map(r -> "; " + r.text() + " has the role "
                                        + r.role().word())
                                .orElse(""));
        Optional<RowValues> values =
                row.filter(r -> !r.hasStates() && r.isEncodable()).map(RowValues::new);
        Optional<Askers> from = FromKey.read(map, site);
        AllowedKeys allowedKeys = new AllowedKeys(map, row, values);
        Optional<Allowed> allowed = allowedKeys.read();
        Optional<BigDecimal> step = allowedKeys.step();
        Optional<Duration> interval =
                PermitKeys.time(map, PermitKeys.INTERVAL, "the shortest time between two writes, like 60 s");
        OptionalInt priority = priority(map);
        SilenceKeys silenceKeys = new SilenceKeys(map, row, values);
        Optional<Silence> silence = silenceKeys.read(allowed);
        if (from.isEmpty()
                || allowed.isEmpty()
                || interval.isEmpty()
                || priority.isEmpty()
                || (silence.isEmpty() && !silenceKeys.isNotWanted())) {
            return Optional.empty();
        }
        return Optional.of(
                new Purpose.Asked(from.get(), allowed.get(), step, interval.get(), priority.getAsInt(), silence));
    }

    private static OptionalInt priority(YamlMap map) {
        if (!map.has(PermitKeys.MQTT_PRIORITY)) {
            return OptionalInt.of(Purpose.Asked.USUAL_MQTT_PRIORITY);
        }
        OptionalInt priority = map.integer(PermitKeys.MQTT_PRIORITY, 1, Purpose.Asked.LAST_PRIORITY);
        if (priority.isPresent() && priority.getAsInt() == Purpose.Asked.KEPT_PRIORITY) {
            map.error(
                    PermitKeys.MQTT_PRIORITY,
                    "must be 1 to 16 and not 6, which BACnet keeps for shortest times on and off (was 6)");
            return OptionalInt.empty();
        }
        return priority;
    }
}
