package burnerbridge.bacnet.edge;

import java.io.IOException;

/** The port cannot be opened; the message says why, for people. */
public final class PortException extends IOException {
    private static final long serialVersionUID = 1L;

    private final Reason reason;
    private final String lookAt;

    /** Where the reason lies. */
    public enum Reason {
        /** Another program has it. */
        TAKEN,
        /** This machine has no such address now, or does not say what goes with it. */
        NO_ADDRESS,
        /** What is configured is no address. */
        NOT_AN_ADDRESS,
        /** The system does not let it be opened. */
        NOT_ALLOWED
    }

    /** @param lookAt what to look at, as it follows "look at" */
    PortException(Reason reason, String message, String lookAt) {
        super(message);
        this.reason = reason;
        this.lookAt = lookAt;
    }

    public Reason reason() {
        return reason;
    }

    public String lookAt() {
        return lookAt;
    }
}
