package burnerbridge.site;

import java.util.Optional;

/**
 * The BACnet/IP side.
 *
 * @param deviceInstance 0 to 4194302; never a default
 * @param bind the IPv4 address to bind, or 0.0.0.0
 * @param broadcast the broadcast address where it cannot be taken from the network interface
 * @param vendorIdentifier as assigned by ASHRAE; 0 is ASHRAE itself and the value for a device without
 */
public record BacnetSettings(
        int deviceInstance,
        String deviceName,
        String bind,
        int port,
        Optional<String> broadcast,
        int vendorIdentifier,
        BacnetOptions options) {

    /** Settings without anything unusual. */
    public BacnetSettings(
            int deviceInstance,
            String deviceName,
            String bind,
            int port,
            Optional<String> broadcast,
            int vendorIdentifier) {
        this(deviceInstance, deviceName, bind, port, broadcast, vendorIdentifier, BacnetOptions.USUAL);
    }

    /** The same with other options. */
    public BacnetSettings with(BacnetOptions others) {
        return new BacnetSettings(deviceInstance, deviceName, bind, port, broadcast, vendorIdentifier, others);
    }
}
