package burnerbridge.bacnet.cov;

import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;

/** Who wants to be told: a station and the process in it (ASHRAE 135, 13.14.1.1). */
public record Subscriber(Address station, UnsignedInteger process) {}
