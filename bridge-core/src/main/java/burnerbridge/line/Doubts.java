package burnerbridge.line;

import burnerbridge.line.frame.Pdu;
import burnerbridge.model.Stamp;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The requests whose replies may still come, on a line whose replies do not say which request they
 * answer. All of it rests upon this: a unit answers in the order in which it was asked, each request once
 * at most, and its reply begins within some time or never, that time being longer where the wire is busy
 * with replies to earlier requests.
 *
 * <p>A reply counts as that to the first request of its unit that it could answer, and it is believed only
 * where every request that it could answer is of the very same registers as the question: then it is a
 * reading of those, whichever it answers, and no older than the first of them, whose time it is given.
 * Otherwise the question is asked once more. So a value is never another's and never shown as newer than
 * it is; where replies run behind it may be shown as older, by no more than a reply is remembered.
 *
 * <p>What asking again may have left over is in the way of other registers of the same shape: asking
 * those again, too, would leave as many over, and never end. Nothing is known of the order in which two
 * units answer, and some things are asked once only. There nothing helps but to wait until no reply is
 * thought possible any more; nor against a reading that would be shown as too old again and again.
 *
 * <p>A write is asked once. What may still come in reply to it can never pass for the reply to a read, whose function
 * is another, refusals included. Two writes of one template do look alike, up to their values with functions 15 and 16
 * and with refusals. So a write waits until nothing of its function can still come of its unit; a reply of the unit to
 * whatever was asked after the earlier write ends that wait, since it answers in order. Where a reply comes later than
 * anything is remembered, or a unit answers out of order, the reply to one write may be taken for that to the next:
 * therefore a reply proves nothing, and what the registers hold when they are read back decides.
 */
final class Doubts {
    private record Asked(long number, Request request, Stamp at, long wireTime, long until, long since, boolean spare) {
        boolean couldHaveBrought(Request asked, Outcome outcome) {
            return isOfUnit(asked.unit())
                    && isOfFunction(asked)
                    && (outcome instanceof Outcome.Refused || hasReplyAsLongAs(asked));
        }

        boolean isOfUnit(UnitId unit) {
            return request.unit().equals(unit);
        }

        boolean isOfFunction(Request other) {
            return request.function() == other.function();
        }

        boolean hasReplyAsLongAs(Request other) {
            return Pdu.replyBytes(request) == Pdu.replyBytes(other);
        }

        /** Whether its reply would be a reading of the very same registers. */
        boolean readsTheSameAs(Request other) {
            return request instanceof ReadRequest own
                    && other instanceof ReadRequest read
                    && isOfUnit(read.unit())
                    && isOfFunction(read)
                    && own.first() == read.first()
                    && own.count() == read.count();
        }

        /** Whether its reply could be taken for another's and asking again does not help. */
        boolean isInTheWayOf(Request other, long tooLongSince) {
            if (!isOfFunction(other)) {
                return false;
            }
            if (!isOfUnit(other.unit())) {
                return request.terms().anyReplyUnit() || other.terms().anyReplyUnit();
            }
            return other.terms().once()
                    || (readsTheSameAs(other) ? since - tooLongSince <= 0 : spare && hasReplyAsLongAs(other));
        }

        Asked asSpare() {
            return new Asked(number, request, at, wireTime, until, since, true);
        }
    }

    /** With these the reply did come, though it is of no use. */
    private static final Set<Fault> CAME = EnumSet.of(Fault.CHECKSUM, Fault.BEGINNING_LOST, Fault.STRAY_BYTES);
    /** For so many times the memory a reading may be shown as older than it is; then that is waited out. */
    private static final int LONGEST_BEHIND = 10;

    private final long memory;
    private final List<Asked> open = new ArrayList<>();
    private long next;
    private long firstOfQuestion;

    /**
     * @param memory how long after its request a reply is still thought possible, besides the time that both
     *     are on the wire; none where every reply says which request it answers
     */
    Doubts(Duration memory) {
        this.memory = memory.toNanos();
    }

    /** Whether a reply could be another's at all. */
    boolean arePossible() {
        return memory > 0;
    }

    /** The tick from which nothing is in the way of a question; {@code now} where that is so already. */
    long clearAt(Request request, long now) {
        forget(now);
        long left = 0;
        for (Asked asked : open) {
            boolean waits = asked.isInTheWayOf(request, now - LONGEST_BEHIND * memory);
            left = waits ? Math.max(left, asked.until - now) : left;
        }
        return now + left;
    }

    /** A question begins. */
    void begin() {
        firstOfQuestion = next;
    }

    /**
     * The question's request leaves, perhaps once more.
     *
     * @param wireTime how long it and its reply are on the wire
     */
    void asked(Request request, Stamp at, Duration wireTime) {
        forget(at.ticks());
        if (arePossible()) {
            long wire = wireTime.toNanos();
            long until = latestBegin(at.ticks()) + wire;
            open.add(new Asked(next++, request, at, wire, until, behindSince(request, at.ticks()), false));
        }
    }

    private void forget(long now) {
        open.removeIf(asked -> now - asked.until >= 0);
    }

    /** A unit is late by itself, or since replies to earlier requests are still on the wire. */
    private long latestBegin(long at) {
        long left = memory;
        long queue = memory;
        for (Asked before : open) {
            left = Math.max(left, before.until - at);
            queue += before.wireTime;
        }
        return at + Math.min(left, queue);
    }

    /** Since when, without a break, replies to the very same request were open. */
    private long behindSince(Request request, long at) {
        return open.stream()
                .filter(asked -> asked.readsTheSameAs(request))
                .map(Asked::since)
                .findFirst()
                .orElse(at);
    }

    /**
     * What is believed of what came in reply.
     *
     * @return with the time of the request that it may be the reply to; empty where the question must be asked
     *     once more
     */
    Optional<Outcome> believed(Request request, Outcome outcome) {
        List<Asked> possible = possible(request, outcome);
        if (possible.isEmpty()) {
            return Optional.of(outcome);
        }
        settle(possible.get(0));
        if (!outcome.isReply()) {
            return Optional.of(outcome);
        }
        // Of what is asked once only nothing was in the way when it was asked.
        if (!request.terms().once() && !possible.stream().allMatch(asked -> asked.readsTheSameAs(request))) {
            return Optional.empty();
        }
        open.replaceAll(asked -> asked.number < firstOfQuestion ? asked : asked.asSpare());
        return Optional.of(at(possible.get(0).at, outcome));
    }

    /** The requests that this may be the reply to, the first first; none where it is no reply of the unit. */
    private List<Asked> possible(Request request, Outcome outcome) {
        boolean came = outcome.isReply() || (outcome instanceof Outcome.Broken broken && CAME.contains(broken.fault()));
        return !came
                ? List.of()
                : open.stream()
                        .filter(asked -> asked.couldHaveBrought(request, outcome))
                        .toList();
    }

    private void settle(Asked answered) {
        UnitId unit = answered.request.unit();
        open.removeIf(asked -> asked.isOfUnit(unit) && asked.number <= answered.number);
    }

    private static Outcome at(Stamp asked, Outcome reply) {
        return reply instanceof Outcome.Answered answered
                ? new Outcome.Answered(answered.data(), asked)
                : new Outcome.Refused(((Outcome.Refused) reply).code(), asked);
    }
}
