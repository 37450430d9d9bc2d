package burnerbridge.daemon;

import burnerbridge.site.permit.WriteCaution;
import java.util.List;

/** The safety caution, for every place that a person reads. */
final class Caution {
    static final String SHORT = "Caution: not a safety device and no part of a burner's protective system."
            + " Check every point against the controller's own display before use.";

    /** For one line of a terminal. */
    static final String LINE = "Caution: not a safety device. Check every point at the controller's display.";

    /** For where writable points are listed, in lines for a terminal. */
    static final List<String> FULL = WriteCaution.lines(WriteCaution.LABELLED, 76);

    private Caution() {}
}
