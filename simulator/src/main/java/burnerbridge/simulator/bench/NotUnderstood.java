package burnerbridge.simulator.bench;

/** A line that is no command; its message says what would be one. */
final class NotUnderstood extends Exception {
    private static final long serialVersionUID = 1L;

    NotUnderstood(String message) {
        super(message);
    }
}
