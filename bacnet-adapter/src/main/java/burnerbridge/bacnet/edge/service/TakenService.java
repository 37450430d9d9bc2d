package burnerbridge.bacnet.edge.service;

import java.util.Arrays;
import java.util.Optional;

/**
 * The services that pass the edge; every other is refused or dropped here. Device objects state exactly
 * these in Protocol_Services_Supported.
 */
public enum TakenService {
    SUBSCRIBE_COV("SubscribeCOV", true, 5, 5),
    READ_PROPERTY("ReadProperty", true, 12, 12),
    READ_PROPERTY_MULTIPLE("ReadPropertyMultiple", true, 14, 14),
    READ_RANGE("ReadRange", true, 26, 35),
    SUBSCRIBE_COV_PROPERTY("SubscribeCOVProperty", true, 28, 38),
    WHO_HAS("Who-Has", false, 7, 33),
    WHO_IS("Who-Is", false, 8, 34);

    private final String title;
    private final boolean confirmed;
    private final int choice;
    private final int supportedBit;

    TakenService(String title, boolean confirmed, int choice, int supportedBit) {
        this.title = title;
        this.confirmed = confirmed;
        this.choice = choice;
        this.supportedBit = supportedBit;
    }

    /** Its name in the standard. */
    public String title() {
        return title;
    }

    public boolean isConfirmed() {
        return confirmed;
    }

    /** Its number among the confirmed or the unconfirmed services (ASHRAE 135, clause 21). */
    public int choice() {
        return choice;
    }

    /** Its bit in BACnetServicesSupported (clause 21). */
    public int supportedBit() {
        return supportedBit;
    }

    static Optional<TakenService> of(boolean confirmed, int choice) {
        return Arrays.stream(values())
                .filter(s -> s.confirmed == confirmed && s.choice == choice)
                .findFirst();
    }
}
