package burnerbridge.line;

import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * The requests whose replies may still come, on a line whose replies do not say which request they
 * answer. A unit answers in the order in which it was asked. So where as many of its replies may be late as
 * there are doubts, asking that number of times more and using the last reply alone makes sure that it
 * answers the last question. Behind it, as many replies to that same question may still come, and asking
 * again would only put others in their place: then nothing helps but to wait until no reply is thought
 * possible any more. Nor does anything else help where a question may be asked once only, or where replies
 * may carry any unit identifier, since nothing is known of the order in which two units answer.
 */
final class Doubts {
    /**
     * @param anyUnit whether its reply may carry any unit identifier
     * @param repeat whether its reply, if it still comes, is one to a question that was answered
     */
    private record Doubt(UnitId unit, boolean anyUnit, int function, long askedAt, boolean repeat) {}

    private final long memory;
    private final List<Doubt> open = new ArrayList<>();

    /** @param memory how long after its request a reply is still thought possible; none for none */
    Doubts(Duration memory) {
        this.memory = memory.toNanos();
    }

    /**
     * How many replies of the same unit's earlier requests could be taken for the reply to this one. One to
     * another function could not; one of another length could, since it may be an exception.
     */
    int about(ReadRequest request, long now) {
        return (int) open(request, now)
                .filter(doubt -> isOfUnit(doubt, request) && !doubt.repeat)
                .count();
    }

    /**
     * The tick from which no reply could be taken for the reply to this request that asking again does not
     * help against; {@code now} where that is so already.
     */
    long clearAt(ReadRequest request, long now) {
        if (open.isEmpty()) {
            return now;
        }
        return open(request, now)
                        .filter(doubt -> isOfUnit(doubt, request)
                                ? doubt.repeat || request.terms().once()
                                : doubt.anyUnit || request.terms().anyReplyUnit())
                        .mapToLong(doubt -> doubt.askedAt + memory - now)
                        .max()
                        .orElse(0)
                + now;
    }

    private Stream<Doubt> open(ReadRequest request, long now) {
        open.removeIf(doubt -> now - doubt.askedAt >= memory);
        return open.stream().filter(doubt -> doubt.function == request.function());
    }

    private static boolean isOfUnit(Doubt doubt, ReadRequest request) {
        return doubt.unit.equals(request.unit());
    }

    /** What became of a request: a reply settles every doubt about its unit. */
    void note(ReadRequest request, Outcome outcome) {
        if (outcome instanceof Outcome.Answered || outcome instanceof Outcome.Refused) {
            open.removeIf(doubt -> isOfUnit(doubt, request) && !doubt.repeat);
        } else if (outcome instanceof Outcome.Silent silent) {
            add(request, silent.askedAt().ticks(), false);
        } else if (outcome instanceof Outcome.Broken broken) {
            add(request, broken.askedAt().ticks(), false);
        }
    }

    /** A request was sent so many times more, the last time before a tick, and that many replies may still come. */
    void noteRepeats(ReadRequest request, int count, long now) {
        for (int i = 0; i < count; i++) {
            add(request, now, true);
        }
    }

    private void add(ReadRequest request, long askedAt, boolean repeat) {
        open.add(new Doubt(request.unit(), request.terms().anyReplyUnit(), request.function(), askedAt, repeat));
    }
}
