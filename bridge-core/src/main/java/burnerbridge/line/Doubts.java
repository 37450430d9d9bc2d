package burnerbridge.line;

import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * The requests whose replies may still come, on a line whose replies do not say which request they
 * answer. A unit answers in the order in which it was asked, each request once at most, and within some
 * time or never. So a reply may be that to the first request of its unit that it could answer, and is sure
 * to answer the last question only once all requests before that question are out of the way. Nothing is
 * known of the order in which two units answer, and some things are asked once only; there nothing helps
 * but to wait until no reply is thought possible any more.
 */
final class Doubts {
    private record Asked(long number, ReadRequest request, long at, boolean spare) {
        boolean couldHaveBrought(ReadRequest asked, Outcome outcome) {
            return isOfUnit(asked.unit())
                    && isOfFunction(asked)
                    && (outcome instanceof Outcome.Refused || hasReplyAsLongAs(asked));
        }

        boolean isOfUnit(UnitId unit) {
            return request.unit().equals(unit);
        }

        boolean isOfFunction(ReadRequest other) {
            return request.function() == other.function();
        }

        boolean hasReplyAsLongAs(ReadRequest other) {
            return request.table().ofBits()
                    ? (request.count() + 7) / 8 == (other.count() + 7) / 8
                    : request.count() == other.count();
        }

        /**
         * Whether its reply could be taken for another's that asking again does not help: that can leave as
         * many replies over as were late, so that it would never end.
         */
        boolean isInTheWayOf(ReadRequest other) {
            if (!isOfFunction(other)) {
                return false;
            }
            if (!isOfUnit(other.unit())) {
                return request.terms().anyReplyUnit() || other.terms().anyReplyUnit();
            }
            return other.terms().once() || (spare && hasReplyAsLongAs(other));
        }

        Asked asSpare() {
            return new Asked(number, request, at, true);
        }
    }

    /** With these the reply did come, though it is of no use. */
    private static final Set<Fault> CAME = EnumSet.of(Fault.CHECKSUM, Fault.BEGINNING_LOST, Fault.STRAY_BYTES);

    private final long memory;
    private final List<Asked> open = new ArrayList<>();
    private long next;
    private long firstOfQuestion;

    /** @param memory how long after its request a reply is still thought possible; none for none */
    Doubts(Duration memory) {
        this.memory = memory.toNanos();
    }

    /** The tick from which nothing is in the way of a question; {@code now} where that is so already. */
    long clearAt(ReadRequest request, long now) {
        forget(now);
        long left = 0;
        for (Asked asked : open) {
            left = asked.isInTheWayOf(request) ? Math.max(left, asked.at + memory - now) : left;
        }
        return now + left;
    }

    /** A question begins. */
    void begin() {
        firstOfQuestion = next;
    }

    /** The question's request leaves, perhaps once more. */
    void asked(ReadRequest request, long now) {
        forget(now);
        open.add(new Asked(next++, request, now, false));
    }

    private void forget(long now) {
        open.removeIf(asked -> now - asked.at >= memory);
    }

    /** What came of it; whether that is the end of the question, or it must be asked once more. */
    boolean ends(ReadRequest request, Outcome outcome) {
        boolean reply = outcome.isReply();
        if (!reply && !isReplyInTatters(outcome)) {
            return true;
        }
        boolean sure = settle(request, outcome);
        if (sure && reply) {
            open.replaceAll(asked -> asked.number < firstOfQuestion ? asked : asked.asSpare());
        }
        // Of what is asked once only nothing was in the way when it was asked.
        return sure || !reply || request.terms().once();
    }

    private static boolean isReplyInTatters(Outcome outcome) {
        return outcome instanceof Outcome.Broken broken && CAME.contains(broken.fault());
    }

    /** Takes the reply for that to the first request that it could answer; whether that is of this question. */
    private boolean settle(ReadRequest request, Outcome outcome) {
        long answered = open.stream()
                .filter(asked -> asked.couldHaveBrought(request, outcome))
                .mapToLong(Asked::number)
                .findFirst()
                .orElse(next);
        open.removeIf(asked -> asked.isOfUnit(request.unit()) && asked.number <= answered);
        return answered >= firstOfQuestion;
    }
}
