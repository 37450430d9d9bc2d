package burnerbridge.poll.agenda;

import burnerbridge.line.ReadRequest;
import burnerbridge.line.ReadTerms;
import burnerbridge.plan.ReadBlock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.PriorityQueue;
import java.util.function.Consumer;
import java.util.function.Predicate;

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
    private final PriorityQueue<Schedule> coming = new PriorityQueue<>(Schedule.BY_DUE);
    private final PriorityQueue<Schedule> wanted = new PriorityQueue<>(Schedule.BY_DEADLINE);

    Lane(Kind kind) {
        this.kind = kind;
    }

    Kind kind() {
        return kind;
    }

    void put(Schedule read) {
        coming.add(read);
    }

    /** Takes a read out, wherever it stands. */
    void drop(Schedule read) {
        if (!wanted.remove(read)) {
            coming.remove(read);
        }
    }

    /** Changes all its reads, whatever that does to their order. */
    void change(Consumer<Schedule> change) {
        List<Schedule> all = new ArrayList<>(coming);
        all.addAll(wanted);
        coming.clear();
        wanted.clear();
        all.forEach(change);
        coming.addAll(all);
    }

    /** The first to be late of those that are wanted by now; those held back step aside. */
    Optional<Schedule> first(long now, Predicate<Schedule> isHeld, List<Schedule> aside) {
        while (!coming.isEmpty() && coming.element().due() - now <= 0) {
            wanted.add(coming.remove());
        }
        while (!wanted.isEmpty() && isHeld.test(wanted.element())) {
            aside.add(wanted.remove());
        }
        return Optional.ofNullable(wanted.peek());
    }

    /** When the next read is wanted. */
    OptionalLong nextDue() {
        Schedule first = coming.peek();
        return first == null ? OptionalLong.empty() : OptionalLong.of(first.due());
    }
}
