package burnerbridge.simulator.broker;

/** The broker cannot be set up or started; the cause says why. */
public final class BrokerException extends Exception {
    private static final long serialVersionUID = 1L;

    BrokerException(String message, Throwable cause) {
        super(message, cause);
    }
}
