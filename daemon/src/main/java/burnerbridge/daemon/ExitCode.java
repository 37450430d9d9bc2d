package burnerbridge.daemon;

/** How a command ends. */
final class ExitCode {
    static final int FINE = 0;
    static final int WARNINGS = 1;
    static final int BAD_INPUT = 2;
    static final int COULD_NOT_REACH = 3;

    private ExitCode() {}
}
