package burnerbridge.daemon;

/** The safety caution, for every place that a person reads. */
final class Caution {
    static final String SHORT = "Caution: not a safety device and no part of a burner's protective system."
            + " Check every point against the controller's own display before use.";

    private Caution() {}
}
