package burnerbridge.mqtt.payload;

import burnerbridge.control.JsonLine;
import burnerbridge.model.BitValue;
import burnerbridge.model.StateValue;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.values.ValueForm;
import java.math.BigDecimal;
import tools.jackson.core.JsonGenerator;

/** A value as asks have it, in the form that the point's own messages have. */
final class AskedValue {
    private AskedValue() {}

    static void write(JsonGenerator json, PointDefinition point, BigDecimal value) {
        PointFormat format = point.format();
        if (format instanceof PointFormat.Bit || format instanceof PointFormat.RegisterBit) {
            JsonLine.write(json, ValueForm.json(new BitValue(value.signum() != 0), point.states()));
        } else if (!point.states().isEmpty()) {
            long number = value.longValue();
            StateValue state =
                    new StateValue(number, point.states().text(number).orElse(null));
            JsonLine.write(json, ValueForm.json(state, point.states()));
        } else {
            JsonLine.write(json, value);
        }
    }
}
