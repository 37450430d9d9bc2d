package burnerbridge.state;

/** The state folder cannot be had. The message is for people: it has the folder and what to do. */
public class StateException extends Exception {
    private static final long serialVersionUID = 1L;

    public StateException(String message) {
        super(message);
    }

    StateException(String message, Throwable cause) {
        super(message, cause);
    }
}
