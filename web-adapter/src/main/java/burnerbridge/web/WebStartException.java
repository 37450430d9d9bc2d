package burnerbridge.web;

/** Health and metrics cannot be served; the message says where and why. Starting may be tried again. */
public final class WebStartException extends Exception {
    private static final long serialVersionUID = 1L;

    WebStartException(String message, Throwable cause) {
        super(message, cause);
    }
}
