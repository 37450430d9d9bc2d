package burnerbridge.bacnet.edge.service;

import java.util.Arrays;
import java.util.Optional;

/**
 * The services that write. They are answered at the edge, and never go further: where a permit exists by what the write gate
 * says, else with an error.
 */
public enum WriteService {
    WRITE_PROPERTY("WriteProperty", 15, 15),
    WRITE_PROPERTY_MULTIPLE("WritePropertyMultiple", 16, 16);

    private final String title;
    private final int choice;
    private final int supportedBit;

    WriteService(String title, int choice, int supportedBit) {
        this.title = title;
        this.choice = choice;
        this.supportedBit = supportedBit;
    }

    /** Its name in the standard. */
    public String title() {
        return title;
    }

    /** Its number among the confirmed services (ASHRAE 135, clause 21). */
    public int choice() {
        return choice;
    }

    /** Its bit in BACnetServicesSupported (clause 21). */
    public int supportedBit() {
        return supportedBit;
    }

    static Optional<WriteService> of(int choice) {
        return Arrays.stream(values()).filter(s -> s.choice == choice).findFirst();
    }
}
