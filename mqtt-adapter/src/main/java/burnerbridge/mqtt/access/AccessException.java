package burnerbridge.mqtt.access;

/** A file or variable that is needed is missing or cannot be used. The message names it and never shows a secret. */
public final class AccessException extends Exception {
    private static final long serialVersionUID = 1L;

    AccessException(String message) {
        super(message);
    }

    AccessException(String message, Throwable cause) {
        super(message, cause);
    }
}
