package burnerbridge.line;

import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/**
 * The requests whose replies may still come, on a line whose replies do not say which request they
 * answer. A unit answers in the order in which it was asked. So where as many replies may be late as there
 * are doubts, asking that number of times more and using the last reply alone makes sure that it answers
 * the last request.
 */
final class Doubts {
    private record Doubt(UnitId unit, int function, long askedAt) {}

    private final long memory;
    private final List<Doubt> open = new ArrayList<>();

    /** @param memory how long after its request a reply is still thought possible; none for none */
    Doubts(Duration memory) {
        this.memory = memory.toNanos();
    }

    /**
     * How many replies of earlier requests could be taken for the reply to this one. One of another unit or
     * function could not; one of another length could, since it may be an exception.
     */
    int about(ReadRequest request, long now) {
        open.removeIf(doubt -> now - doubt.askedAt >= memory);
        return (int) open.stream()
                .filter(doubt -> doubt.unit.equals(request.unit()) && doubt.function == functionOf(request))
                .count();
    }

    private static int functionOf(ReadRequest request) {
        return request.table().readFunction();
    }

    /** What became of a request: a reply settles every doubt about its unit. */
    void note(ReadRequest request, Outcome outcome) {
        if (outcome instanceof Outcome.Answered || outcome instanceof Outcome.Refused) {
            open.removeIf(doubt -> doubt.unit.equals(request.unit()));
        } else if (outcome instanceof Outcome.Silent silent) {
            open.add(new Doubt(
                    request.unit(), functionOf(request), silent.askedAt().ticks()));
        } else if (outcome instanceof Outcome.Broken broken) {
            open.add(new Doubt(
                    request.unit(), functionOf(request), broken.askedAt().ticks()));
        }
    }
}
