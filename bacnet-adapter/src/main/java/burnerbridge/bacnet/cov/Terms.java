package burnerbridge.bacnet.cov;

import com.serotonin.bacnet4j.type.primitive.Real;
import org.jspecify.annotations.Nullable;

/**
 * How somebody wants to be told.
 *
 * @param lifetime in seconds; 0 for without end
 * @param increment the change that is worth telling, where it is stated
 */
public record Terms(
        boolean confirmed, long lifetime, @Nullable Real increment) {}
