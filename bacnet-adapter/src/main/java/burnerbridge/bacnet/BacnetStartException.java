package burnerbridge.bacnet;

import burnerbridge.bacnet.edge.PortException;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import java.io.IOException;

/** The BACnet side could not start; the message says what and why. Starting may be tried again. */
public final class BacnetStartException extends Exception {
    private static final long serialVersionUID = 1L;
    private static final String ABOUT = "bacnet";

    private final transient Trouble trouble;

    private BacnetStartException(Place place, String seen, String lookAt, Stamp now, Throwable cause) {
        super(ABOUT + ": " + seen, cause);
        this.trouble = new Trouble(place, ABOUT, seen, lookAt, now, Trouble.Weight.NOT_READY);
    }

    static BacnetStartException ofPort(IOException cause, Stamp now) {
        String seen = String.valueOf(cause.getMessage());
        return cause instanceof PortException port
                ? new BacnetStartException(placeOf(port.reason()), seen, port.lookAt(), now, cause)
                : new BacnetStartException(Place.BRIDGE, seen, "the log", now, cause);
    }

    private static Place placeOf(PortException.Reason reason) {
        return switch (reason) {
            case TAKEN, NOT_ALLOWED -> Place.BRIDGE;
            case NO_ADDRESS -> Place.NETWORK;
            case NOT_AN_ADDRESS -> Place.SITE;
        };
    }

    static BacnetStartException ofDevice(String port, Stamp now, Exception cause) {
        return new BacnetStartException(
                Place.BRIDGE,
                port + " is open, but the device cannot start: " + cause.getMessage(),
                "the log",
                now,
                cause);
    }

    /** What it means for the whole bridge: nobody is served until it starts. Since when: since this attempt. */
    public Trouble trouble() {
        return trouble;
    }
}
