package burnerbridge.state;

/** The state folder is on a file system that is read-only or full; nobody else has it. */
public final class TakesNothingException extends StateException {
    private static final long serialVersionUID = 1L;

    TakesNothingException(String message, Throwable cause) {
        super(message, cause);
    }
}
