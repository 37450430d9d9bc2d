package burnerbridge.bacnet.device;

import burnerbridge.site.ObjectKind;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import java.util.Arrays;
import java.util.List;

/** The object types of the kinds of objects. */
final class Kinds {
    private Kinds() {}

    static ObjectType type(ObjectKind kind) {
        return switch (kind) {
            case ANALOG_INPUT -> ObjectType.analogInput;
            case BINARY_INPUT -> ObjectType.binaryInput;
            case MULTI_STATE_INPUT -> ObjectType.multiStateInput;
            case NONE -> throw new IllegalArgumentException("no object has no type");
        };
    }

    /** Every type that a point can have. */
    static List<ObjectType> types() {
        return Arrays.stream(ObjectKind.values())
                .filter(k -> k != ObjectKind.NONE)
                .map(Kinds::type)
                .toList();
    }
}
