package burnerbridge.control;

/** A running bridge could not be asked. The message is for people. */
public class ControlException extends Exception {
    private static final long serialVersionUID = 1L;

    public ControlException(String message) {
        super(message);
    }

    public ControlException(String message, Throwable cause) {
        super(message, cause);
    }
}
