package burnerbridge.web.http;

import burnerbridge.model.Stamp;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;

/**
 * One connection from its first octet to its end: one request, one answer. Everything that comes behind the request is
 * thrown away, for a moment, so that a client that is still sending gets to read the answer. The web thread steps it.
 */
final class Visit {
    static final long HEAD_TIME = TimeUnit.SECONDS.toNanos(5);
    static final long ANSWER_TIME = TimeUnit.SECONDS.toNanos(10);
    static final long LEAVING_TIME = TimeUnit.SECONDS.toNanos(1);
    static final int MOST_THROWN_AWAY = 65_536;

    private static final ByteBuffer NOTHING = ByteBuffer.allocate(0);

    private final Wire wire;
    private final Function<Request, Answer> desk;
    private HeadReader head = new HeadReader();
    private ByteBuffer waiting = NOTHING;
    private Phase phase = Phase.ASKING;
    private boolean hasSaidAnything;
    private long due;
    private int thrownAway;
    private Optional<Integer> status = Optional.empty();

    /** In the order in which a visit goes through them. */
    enum Phase {
        ASKING,
        ANSWERING,
        LEAVING,
        GONE
    }

    Visit(Wire wire, Function<Request, Answer> desk, long now) {
        this.wire = wire;
        this.desk = desk;
        this.due = now + HEAD_TIME;
    }

    Phase phase() {
        return phase;
    }

    /** Until when the present phase may last. */
    long due() {
        return due;
    }

    /** What was answered; empty before. */
    Optional<Integer> status() {
        return status;
    }

    /** How many octets of the answer are still to be sent. */
    int waiting() {
        return waiting.remaining();
    }

    /**
     * Does what can be done without waiting.
     *
     * @param scratch for what is read, of any content
     */
    void step(ByteBuffer scratch, Stamp now) {
        try {
            switch (phase) {
                case ASKING -> ask(scratch, now);
                case ANSWERING -> write(now);
                case LEAVING -> throwAway(scratch);
                case GONE -> {}
            }
        } catch (IOException e) {
            // The client went away; nothing else of it is of interest.
            end();
        }
    }

    /** Ends a phase that has lasted too long. Whether it did. */
    boolean expire(Stamp now) {
        if (phase == Phase.GONE || now.ticks() - due < 0) {
            return false;
        }
        if (phase == Phase.ASKING && hasSaidAnything) {
            try {
                answer(Answer.refusal(408, "the request was not there within 5 s"), true, now);
            } catch (IOException e) {
                end();
            }
        } else {
            end();
        }
        return true;
    }

    void end() {
        phase = Phase.GONE;
        waiting = NOTHING;
        wire.close();
    }

    private void ask(ByteBuffer scratch, Stamp now) throws IOException {
        scratch.clear();
        int count = wire.read(scratch);
        if (count < 0) {
            end();
            return;
        }
        hasSaidAnything |= count > 0;
        Optional<HeadReader.Outcome> outcome = head.take(scratch.flip());
        if (outcome.isEmpty()) {
            return;
        }
        if (outcome.get() instanceof HeadReader.Outcome.Whole whole) {
            boolean withBody = !whole.request().method().equals("HEAD");
            answer(desk.apply(whole.request()), withBody, now);
        } else if (outcome.get() instanceof HeadReader.Outcome.Refused refused) {
            answer(refused.answer(), true, now);
        }
    }

    private void answer(Answer answer, boolean withBody, Stamp now) throws IOException {
        status = Optional.of(answer.status());
        waiting = ByteBuffer.wrap(answer.octets(withBody, now));
        phase = Phase.ANSWERING;
        due = now.ticks() + ANSWER_TIME;
        write(now);
    }

    private void write(Stamp now) throws IOException {
        wire.write(waiting);
        if (!waiting.hasRemaining()) {
            waiting = NOTHING;
            wire.endOutput();
            phase = Phase.LEAVING;
            due = now.ticks() + LEAVING_TIME;
        }
    }

    private void throwAway(ByteBuffer scratch) throws IOException {
        scratch.clear();
        int count = wire.read(scratch);
        thrownAway += Math.max(0, count);
        if (count < 0 || thrownAway > MOST_THROWN_AWAY) {
            end();
        }
    }
}
