package burnerbridge.secret;

/** A secret cannot be had or used. The message names where it should be and never shows it. */
public final class SecretException extends Exception {
    private static final long serialVersionUID = 1L;

    public SecretException(String message) {
        super(message);
    }

    SecretException(String message, Throwable cause) {
        super(message, cause);
    }
}
