package burnerbridge.bacnet.plan;

import burnerbridge.site.ObjectKind;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** The object types of the kinds of objects. */
public final class Kinds {
    private Kinds() {}

    /** @throws IllegalArgumentException for {@link ObjectKind#NONE} */
    public static ObjectType type(ObjectKind kind) {
        return switch (kind) {
            case ANALOG_INPUT -> ObjectType.analogInput;
            case BINARY_INPUT -> ObjectType.binaryInput;
            case MULTI_STATE_INPUT -> ObjectType.multiStateInput;
            case ANALOG_VALUE -> ObjectType.analogValue;
            case BINARY_VALUE -> ObjectType.binaryValue;
            case MULTI_STATE_VALUE -> ObjectType.multiStateValue;
            case INTEGER_VALUE -> ObjectType.integerValue;
            case POSITIVE_INTEGER_VALUE -> ObjectType.positiveIntegerValue;
            case LARGE_ANALOG_VALUE -> ObjectType.largeAnalogValue;
            case ACCUMULATOR -> ObjectType.accumulator;
            case CHARACTERSTRING_VALUE -> ObjectType.characterstringValue;
            case DATETIME_VALUE -> ObjectType.datetimeValue;
            case NONE -> throw new IllegalArgumentException("no object has no type");
        };
    }

    /** Every type that the device can have beside itself. */
    public static List<ObjectType> types() {
        List<ObjectType> types = new ArrayList<>();
        Arrays.stream(ObjectKind.values())
                .filter(k -> k != ObjectKind.NONE)
                .map(Kinds::type)
                .forEach(types::add);
        types.add(ObjectType.structuredView);
        return List.copyOf(types);
    }
}
