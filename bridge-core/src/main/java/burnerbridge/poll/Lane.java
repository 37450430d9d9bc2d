package burnerbridge.poll;

import burnerbridge.line.ReadRequest;
import burnerbridge.line.ReadTerms;
import burnerbridge.plan.ReadBlock;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.PriorityQueue;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * Those reads of a controller that a line cannot tell apart when it says from when on they may be asked: of one
 * function, of one length and on the same terms. So of each lane only the first has to be looked at, however many
 * reads a line has.
 */
final class Lane {
    /** What the reads of a lane have in common. */
    record Kind(int function, int count, ReadTerms terms) {
        static Kind of(ReadBlock block) {
            ReadRequest first = block.requests().get(0);
            return new Kind(first.function(), first.count(), first.terms());
        }

        /** Whether they are asked only when no late reply could be taken for theirs, so that others can be in their way. */
        boolean isCareful() {
            return terms.once() || terms.anyReplyUnit();
        }
    }

    private final Kind kind;
    private final PriorityQueue<Schedule> reads = new PriorityQueue<>(Schedule.BY_DUE);

    Lane(Kind kind) {
        this.kind = kind;
    }

    Kind kind() {
        return kind;
    }

    void put(Schedule read) {
        reads.add(read);
    }

    /** Takes a read out wherever it stands; whether it was there. */
    boolean drop(Schedule read) {
        return reads.remove(read);
    }

    /** The read that is wanted first of those that are wanted by now; those held back step aside. */
    Optional<Schedule> first(long now, Predicate<Schedule> isHeld, List<Schedule> aside) {
        Schedule first = wanted(now);
        while (first != null && isHeld.test(first)) {
            aside.add(first);
            drop(first);
            first = wanted(now);
        }
        return Optional.ofNullable(first);
    }

    private @Nullable Schedule wanted(long now) {
        Schedule first = reads.peek();
        return first != null && first.due() - now <= 0 ? first : null;
    }

    /** When the next read is wanted. */
    OptionalLong nextDue() {
        Schedule first = reads.peek();
        return first == null ? OptionalLong.empty() : OptionalLong.of(first.due());
    }
}
