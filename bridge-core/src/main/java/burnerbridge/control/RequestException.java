package burnerbridge.control;

/** A request that is not answered. The code is for programs, the message for people. */
public final class RequestException extends Exception {
    private static final long serialVersionUID = 1L;

    private final String code;

    public RequestException(String code, String message) {
        super(message);
        this.code = code;
    }

    public String code() {
        return code;
    }
}
