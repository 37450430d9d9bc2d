package burnerbridge.bacnet.door;

import burnerbridge.write.ask.Source;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.constructed.DeviceObjectReference;
import com.serotonin.bacnet4j.type.constructed.ValueSource;
import com.serotonin.bacnet4j.type.primitive.OctetString;

/** Who holds a slot, as the standard tells it (BACnetValueSource, ASHRAE 135-2016, clause 21; from memory). */
final class ValueSources {
    private ValueSources() {}

    /**
     * A station of BACnet/IP by the address of its datagrams, which of one behind a router is the router's; whatever else
     * asks, does so through this device.
     */
    static ValueSource of(Source source, LocalDevice device) {
        return source instanceof Source.Bacnet station
                ? new ValueSource(new Address(mac(station)))
                : new ValueSource(new DeviceObjectReference(device.getId(), device.getId()));
    }

    private static OctetString mac(Source.Bacnet station) {
        int host = station.address();
        int port = station.port();
        return new OctetString(new byte[] {
            (byte) (host >> 24), (byte) (host >> 16), (byte) (host >> 8), (byte) host, (byte) (port >> 8), (byte) port
        });
    }
}
