package burnerbridge.line;

import burnerbridge.line.frame.Pdu;
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
    /** A reply on its way: to which request of all, what was read, when, and when its last byte has come. */
    private record Reply(Request request, int number, long readAt, boolean refused, long endsAt) {
        boolean hasTheShapeOf(Request other) {
            return other.takesReplyOf(request.unit().number())
                    && request.function() == other.function()
                    && (refused || Pdu.replyBytes(request) == Pdu.replyBytes(other));
        }

        /** The registers tell where they are. */
        Outcome outcome(Stamp asked) {
            int first = request instanceof ReadRequest read ? read.first() : 0;
            return refused
                    ? new Outcome.Refused(2, asked)
                    : new Outcome.Answered(Registers.of(request.unit().number(), first), asked);
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
    private int asked;
    private int lastAnswered;

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

    /** How many requests left so far. */
    int asked() {
        return asked;
    }

    /** To which of them the last reply was. */
    int lastAnswered() {
        return lastAnswered;
    }

    long sinceStart(Stamp stamp) {
        return stamp.ticks() - start;
    }

    private void takes(Request request, Duration wireTime) {
        asked++;
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
            coming.add(new Reply(request, asked, Math.max(readAt, now()), dice.nextInt(10) == 0, wireFree));
        }
    }

    /** What has come is thrown away, then a request leaves: what comes of it, as a transport would tell. */
    Outcome ask(Request request, Duration wireTime, Duration replyTimeout) {
        coming.removeIf(reply -> reply.endsAt <= now());
        Stamp left = clock.now();
        long deadline = now() + replyTimeout.plus(wireTime).toNanos();
        takes(request, wireTime);
        Reply first = coming.peek();
        if (first == null || first.endsAt > deadline) {
            clock.forward(Duration.ofNanos(deadline - now()));
            return new Outcome.Silent(left);
        }
        coming.remove();
        clock.forward(Duration.ofNanos(first.endsAt - now()));
        lastReadAt = first.readAt;
        lastAnswered = first.number;
        return first.hasTheShapeOf(request) ? first.outcome(left) : new Outcome.Broken(Fault.UNIT, "of another", left);
    }
}
