package burnerbridge.site;

import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.WritePermit;
import java.util.Optional;

/**
 * The BACnet objects by which a permitted point is asked for, beside the one that shows it: so that to give a permit, or to
 * take it back, moves nothing. They are bound as points of the type are, each under a name of its own.
 *
 * @param request in the bindings, the object that is commanded
 * @param kind of that object
 * @param lease in the bindings, the Analog Value that tells how long the winner still holds; empty where none ends
 */
public record RequestObjects(Name request, ObjectKind kind, Optional<Name> lease) {
    public static final String REQUEST = "-request";
    public static final String LEASE = "-lease";

    /** What a permit gives a point of its type; empty for a heartbeat, and where the names would be no names any more. */
    public static Optional<RequestObjects> of(PointDefinition point, WritePermit permit) {
        return permit.asked().flatMap(asked -> of(point, asked));
    }

    private static Optional<RequestObjects> of(PointDefinition point, Purpose.Asked asked) {
        Optional<Name> request = name(point, REQUEST);
        Optional<Name> lease = asked.silence().flatMap(silence -> name(point, LEASE));
        return request.map(name -> new RequestObjects(name, kind(point), lease));
    }

    private static Optional<Name> name(PointDefinition point, String suffix) {
        String text = point.name() + suffix;
        return Name.objectionTo(text).isEmpty() ? Optional.of(new Name(text)) : Optional.empty();
    }

    private static ObjectKind kind(PointDefinition point) {
        if (point.format().isBit()) {
            return ObjectKind.BINARY_VALUE;
        }
        return point.states().isEmpty() ? ObjectKind.ANALOG_VALUE : ObjectKind.MULTI_STATE_VALUE;
    }
}
