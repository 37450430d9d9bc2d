package burnerbridge.bacnet;

/** The BACnet side could not start; the message says what and why. Starting may be tried again. */
public final class BacnetStartException extends Exception {
    private static final long serialVersionUID = 1L;

    BacnetStartException(String message, Throwable cause) {
        super(message, cause);
    }
}
