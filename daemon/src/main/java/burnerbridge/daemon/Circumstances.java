package burnerbridge.daemon;

import burnerbridge.health.Trouble;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * In which way a bridge starts otherwise than it was asked to, since the world is not as it should be.
 *
 * @param writesClosed why nothing may be written whatever is approved; empty where that decides
 * @param troubles that last as long as the bridge runs
 */
record Circumstances(Optional<String> writesClosed, List<Trouble> troubles) {
    static final Circumstances USUAL = new Circumstances(Optional.empty(), List.of());

    Circumstances {
        troubles = List.copyOf(troubles);
    }

    /** With one trouble more, because of which nothing may be written. */
    Circumstances closedBy(Trouble trouble) {
        List<Trouble> all = new ArrayList<>(troubles);
        all.add(trouble);
        return new Circumstances(Optional.of(writesClosed.orElse(trouble.seen())), all);
    }
}
