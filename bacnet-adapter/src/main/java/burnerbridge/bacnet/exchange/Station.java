package burnerbridge.bacnet.exchange;

import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.primitive.OctetString;
import org.jspecify.annotations.Nullable;

/**
 * Whom we speak with.
 *
 * @param router by which it is reached; null where it is on our own network
 */
record Station(Address address, @Nullable OctetString router) {}
