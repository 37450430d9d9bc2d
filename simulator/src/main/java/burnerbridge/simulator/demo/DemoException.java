package burnerbridge.simulator.demo;

/** The demo cannot go on, for a reason that people can do something about. */
final class DemoException extends Exception {
    /** What was given to the demo is wrong. */
    static final int BAD_INPUT = 2;
    /** A part of it cannot be started or has died. */
    static final int NOT_REACHED = 3;

    private static final long serialVersionUID = 1L;

    private final int exitCode;

    DemoException(int exitCode, String message) {
        super(message);
        this.exitCode = exitCode;
    }

    DemoException(int exitCode, String message, Throwable cause) {
        super(message + ": " + cause.getMessage(), cause);
        this.exitCode = exitCode;
    }

    int exitCode() {
        return exitCode;
    }
}
