package burnerbridge.site.permit;

import burnerbridge.site.PointId;
import java.util.Optional;

/**
 * Leave to write one point. By itself it opens nothing: a person must have approved it on the box.
 *
 * @param purpose who writes it, and what
 * @param function that writes it: 5, 6, 15, 16, or 22 for some bits of a register
 * @param storage what a write costs the controller's memory
 * @param reason for people, why anybody may write this
 */
public record WritePermit(PointId point, Purpose purpose, int function, Storage storage, String reason) {

    public WritePermit {
        if (!Functions.ALL.contains(function)) {
            throw new IllegalArgumentException("functions that write are 5, 6, 15, 16 and 22 (was " + function + ")");
        }
    }

    /** What others may ask for; empty for a heartbeat, which nobody asks for. */
    public Optional<Purpose.Asked> asked() {
        return purpose instanceof Purpose.Asked asked ? Optional.of(asked) : Optional.empty();
    }

    /** What happens when nobody asks any more; empty where nothing does. */
    public Optional<Silence> silence() {
        return asked().flatMap(Purpose.Asked::silence);
    }

    /** The beat of a heartbeat; empty for what others ask for. */
    public Optional<Purpose.Beat> beat() {
        return purpose instanceof Purpose.Beat beat ? Optional.of(beat) : Optional.empty();
    }
}
