package burnerbridge.write.approval;

import java.time.Instant;
import java.util.Optional;

/** Whether anything is approved. Only {@link Stands} opens anything, and only where it covers what there is. */
public sealed interface ApprovalState {

    /** The newest approval, if only to compare with; empty where there never was one, or it cannot be read. */
    Optional<Approval> last();

    /** Nobody has approved anything here. */
    record Never() implements ApprovalState {
        @Override
        public Optional<Approval> last() {
            return Optional.empty();
        }
    }

    /** A person approved this. */
    record Stands(Approval approval) implements ApprovalState {
        @Override
        public Optional<Approval> last() {
            return Optional.of(approval);
        }
    }

    /**
     * A person has taken it back.
     *
     * @param by the name that the person gave
     * @param believed whether the clock was believed to be right
     */
    record Withdrawn(Approval approval, String by, Instant at, boolean believed) implements ApprovalState {
        @Override
        public Optional<Approval> last() {
            return Optional.of(approval);
        }
    }

    /**
     * It cannot be read, or is not what was written.
     *
     * @param why for people
     */
    record Unreadable(String why) implements ApprovalState {
        @Override
        public Optional<Approval> last() {
            return Optional.empty();
        }
    }
}
