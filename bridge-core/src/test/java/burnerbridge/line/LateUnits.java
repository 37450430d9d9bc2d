package burnerbridge.line;

import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;

/**
 * Units on one slow wire that answer each request at most once, each in the order in which it was asked, and
 * begin at any time within the memory or when the wire is free; or never. The wire loses requests and replies.
 */
final class LateUnits {
    /** A reply on its way: what was read, when, and when its last byte has come. */
    private record Reply(ReadRequest request, long readAt, boolean refused, long endsAt) {
        boolean hasTheShapeOf(ReadRequest other) {
            return request.unit().equals(other.unit())
                    && request.function() == other.function()
                    && (refused || request.count() == other.count());
        }

        /** The registers tell where they are. */
        Outcome outcome(Stamp asked) {
            return refused
                    ? new Outcome.Refused(2, asked)
                    : new Outcome.Answered(Registers.of(request.unit().number(), request.first()), asked);
        }
    }

    private final Random dice;
    private final HandClock clock;
    private final Duration memory;
    private final long start;
    private final Deque<Reply> coming = new ArrayDeque<>();
    private final Map<UnitId, Long> lastBegan = new HashMap<>();
    private long wireFree;
    private long lastReadAt;

    LateUnits(Random dice, HandClock clock, Duration memory) {
        this.dice = dice;
        this.clock = clock;
        this.memory = memory;
        this.start = clock.ticks();
    }

    private long now() {
        return clock.ticks() - start;
    }

    /** When the registers of the last reply were read, from the beginning on. */
    long lastReadAt() {
        return lastReadAt;
    }

    long sinceStart(Stamp stamp) {
        return stamp.ticks() - start;
    }

    private void takes(ReadRequest request, Duration wireTime) {
        if (dice.nextInt(8) == 0) {
            return;
        }
        long late = dice.nextInt(3) > 0 ? dice.nextInt(20) : dice.nextInt((int) memory.toMillis());
        long begins = now() + Duration.ofMillis(late).toNanos();
        begins = Math.max(begins, lastBegan.getOrDefault(request.unit(), 0L));
        begins = Math.max(begins, wireFree);
        long readAt = now() + (long) (dice.nextDouble() * (begins - now()));
        lastBegan.put(request.unit(), begins);
        wireFree = begins + wireTime.toNanos();
        if (dice.nextInt(8) > 0) {
            coming.add(new Reply(request, Math.max(readAt, now()), dice.nextInt(10) == 0, wireFree));
        }
    }

    /** What has come is thrown away, then a request leaves: what comes of it, as a transport would tell. */
    Outcome ask(ReadRequest request, Duration wireTime, Duration replyTimeout) {
        coming.removeIf(reply -> reply.endsAt <= now());
        Stamp asked = clock.now();
        long deadline = now() + replyTimeout.plus(wireTime).toNanos();
        takes(request, wireTime);
        Reply first = coming.peek();
        if (first == null || first.endsAt > deadline) {
            clock.forward(Duration.ofNanos(deadline - now()));
            return new Outcome.Silent(asked);
        }
        coming.remove();
        clock.forward(Duration.ofNanos(first.endsAt - now()));
        lastReadAt = first.readAt;
        return first.hasTheShapeOf(request)
                ? first.outcome(asked)
                : new Outcome.Broken(Fault.UNIT, "of another", asked);
    }
}
