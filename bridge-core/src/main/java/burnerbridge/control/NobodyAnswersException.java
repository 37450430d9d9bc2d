package burnerbridge.control;

/** No bridge runs with this state folder. */
public final class NobodyAnswersException extends ControlException {
    private static final long serialVersionUID = 1L;

    NobodyAnswersException(String message, Throwable cause) {
        super(message, cause);
    }
}
