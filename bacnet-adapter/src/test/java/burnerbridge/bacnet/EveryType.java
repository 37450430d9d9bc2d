package burnerbridge.bacnet;

import burnerbridge.model.BitValue;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.DateTimeValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.TextValue;
import burnerbridge.model.Value;
import burnerbridge.site.Bindings;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.StateNumbers;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A point for each kind of object, with two values and what both are on the wire: application tags by ASHRAE
 * 135, 20.2, put together by hand. Each is bound at its place in this list, from 1.
 */
public enum EveryType {
    ANALOG_INPUT(0, new PointFormat.Floating(32, WordOrder.HIGH_WORD_FIRST), "1", "°C", real("72.5"), real("73.5")),
    BINARY_INPUT(3, new PointFormat.Bit(), "1", "", new BitValue(false), new BitValue(true)),
    MULTI_STATE_INPUT(13, PointFormat.UINT16, "1", "", new StateValue(4, "low"), new StateValue(9, "high")),
    ANALOG_VALUE(2, PointFormat.UINT16, "0.1", "bar", real("1.5"), real("2.5")),
    BINARY_VALUE(5, new PointFormat.Bit(), "1", "", new BitValue(true), new BitValue(false)),
    MULTI_STATE_VALUE(19, PointFormat.UINT16, "1", "", new StateValue(9, "high"), new StateValue(4, "low")),
    INTEGER_VALUE(45, whole(32, true), "1", "kW", integer(-2147483648L), integer(-129)),
    POSITIVE_INTEGER_VALUE(48, whole(32, false), "1", "", integer(4294967295L), integer(65536)),
    LARGE_ANALOG_VALUE(46, whole(32, false), "0.01", "kWh", real("42949672.95"), real("42949673.95")),
    ACCUMULATOR(23, whole(32, false), "0.1", "m3", real("1234567.8"), real("1234568.8")),
    CHARACTERSTRING_VALUE(40, new PointFormat.Text(4, WordOrder.HIGH_WORD_FIRST), "1", "", text("A-17"), text("Ü")),
    DATETIME_VALUE(44, new PointFormat.Epoch32(WordOrder.HIGH_WORD_FIRST, ZoneId.of("UTC")), "1", "", time(0), time(7));

    public final int type;
    public final Value first;
    public final Value second;
    private final PointFormat format;
    private final String scale;
    private final String unit;

    EveryType(int type, PointFormat format, String scale, String unit, Value first, Value second) {
        this.type = type;
        this.format = format;
        this.scale = scale;
        this.unit = unit;
        this.first = first;
        this.second = second;
    }

    private static Value real(String number) {
        return new RealValue(new BigDecimal(number), 2);
    }

    private static Value integer(long number) {
        return IntegerValue.of(number);
    }

    private static Value text(String characters) {
        return new TextValue(characters);
    }

    private static Value time(int second) {
        return new DateTimeValue(LocalDateTime.of(2026, 11, 25, 8, 30, second));
    }

    private static PointFormat whole(int bits, boolean signed) {
        return new PointFormat.Whole(bits, signed, WordOrder.HIGH_WORD_FIRST);
    }

    public String point() {
        return kind().word() + "-point";
    }

    ObjectKind kind() {
        return ObjectKind.valueOf(name());
    }

    public int instance() {
        return ordinal() + 1;
    }

    int object() {
        return type << 22 | instance();
    }

    /** The first value on the wire. */
    String firstOctets() {
        return switch (this) {
            case ANALOG_INPUT -> "44 42 91 00 00";
            case BINARY_INPUT -> "91 00";
            case MULTI_STATE_INPUT -> "21 01";
            case ANALOG_VALUE -> "44 3F C0 00 00";
            case BINARY_VALUE -> "91 01";
            case MULTI_STATE_VALUE -> "21 02";
            case INTEGER_VALUE -> "34 80 00 00 00";
            case POSITIVE_INTEGER_VALUE -> "24 FF FF FF FF";
            case LARGE_ANALOG_VALUE -> "55 08 41 84 7A E1 47 99 99 9A";
            case ACCUMULATOR -> "23 BC 61 4E";
            case CHARACTERSTRING_VALUE -> "75 05 00 41 2D 31 37";
            case DATETIME_VALUE -> "A4 7E 0B 19 03 B4 08 1E 00 00";
        };
    }

    /** The second value on the wire. */
    String secondOctets() {
        return switch (this) {
            case ANALOG_INPUT -> "44 42 93 00 00";
            case BINARY_INPUT -> "91 01";
            case MULTI_STATE_INPUT -> "21 02";
            case ANALOG_VALUE -> "44 40 20 00 00";
            case BINARY_VALUE -> "91 00";
            case MULTI_STATE_VALUE -> "21 01";
            case INTEGER_VALUE -> "32 FF 7F";
            case POSITIVE_INTEGER_VALUE -> "23 01 00 00";
            case LARGE_ANALOG_VALUE -> "55 08 41 84 7A E1 4F 99 99 9A";
            case ACCUMULATOR -> "23 BC 61 58";
            case CHARACTERSTRING_VALUE -> "73 00 C3 9C";
            case DATETIME_VALUE -> "A4 7E 0B 19 03 B4 08 1E 07 00";
        };
    }

    private PointDefinition definition() {
        States states = kind().isMultiState() ? states() : States.NONE;
        Unit shown = unit.isEmpty() ? Unit.NONE : Unit.of(unit);
        return Plant.point(point(), format, scale, "0.5", states, kind(), shown);
    }

    private static States states() {
        Map<Long, String> texts = new LinkedHashMap<>();
        texts.put(4L, "low");
        texts.put(9L, "high");
        return new States(texts);
    }

    public static Plant plant(BridgeClock clock, ZoneId zone) {
        List<PointDefinition> points = new ArrayList<>();
        List<Bindings.Binding> bindings = new ArrayList<>();
        for (EveryType each : values()) {
            points.add(each.definition());
            StateNumbers numbers = each.kind().isMultiState() ? StateNumbers.inOrderOf(states()) : StateNumbers.NONE;
            bindings.add(
                    new Bindings.Binding(Plant.TYPE, new Name(each.point()), each.kind(), each.instance(), numbers));
        }
        return new Plant(clock, zone, points, new Bindings(bindings));
    }
}
