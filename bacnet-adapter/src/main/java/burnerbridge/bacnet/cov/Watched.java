package burnerbridge.bacnet.cov;

import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** An object whose changes can be subscribed to. Read by any thread. */
public interface Watched {

    ObjectIdentifier objectId();

    /** What a property holds now; null where the object has no such property. */
    @Nullable
    Encodable held(PropertyIdentifier property);

    /** The change of Present_Value that is told where a subscription states none; empty for every change. */
    OptionalDouble tellingChange();
}
