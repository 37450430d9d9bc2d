package burnerbridge.daemon;

import java.util.List;

/** The safety caution, for every place that a person reads. */
final class Caution {
    static final String SHORT = "Caution: not a safety device and no part of a burner's protective system."
            + " Check every point against the controller's own display before use.";

    /** For one line of a terminal. */
    static final String LINE = "Caution: not a safety device. Check every point at the controller's display.";

    /** For where writable points are listed, in lines for a terminal. */
    static final List<String> FULL = List.of(
            "Caution: this is not a safety device and no part of a burner's protective",
            "system. Hard-wired limits and interlocks must work with this box unplugged.",
            "Adjusting a burner is for licensed, competent people with combustion",
            "instruments. Local codes, the manufacturer's instructions and the authority",
            "having jurisdiction come first. The bridge trusts the point list as it was",
            "typed: check every point against the controller's own display before use.");

    private Caution() {}
}
