package burnerbridge.poll;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.ReadTerms;
import burnerbridge.poll.pace.Share;
import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.List;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Future;
import java.util.concurrent.RejectedExecutionException;

/**
 * Reads that people's tools ask for, made by the line's own thread between two polls: never two of them while a poll
 * is due, and all together for a tenth of the line's time. For any thread.
 */
public final class ToolReads {
    static final int MOST_WAITING = 16;
    private static final int ONE_IN = 10;
    private static final Duration SAVED_FOR = Duration.ofMinutes(1);

    private final List<ControllerDefinition> controllers;
    private final Duration replyTimeout;
    private final Share share;
    private final Queue<Question> waiting = new ArrayDeque<>();
    private volatile Runnable wake = () -> {};
    private boolean closed;

    /** A read that somebody waits for. */
    record Question(ReadRequest request, CompletableFuture<Outcome> answer) {}

    /** @param controllers all of the line */
    ToolReads(List<ControllerDefinition> controllers, Duration replyTimeout, long now) {
        this.controllers = List.copyOf(controllers);
        this.replyTimeout = replyTimeout;
        this.share = new Share(ONE_IN, SAVED_FOR, now);
    }

    /** @param wakes called from any thread when a read was asked for, to make the line's thread take its next step */
    public void whenAsked(Runnable wakes) {
        wake = wakes;
    }

    /**
     * Asks for a read, whose terms are those of its controller whatever the request says. The result is what became
     * of it; it is cancelled when the line ends, and may be cancelled as long as it was not asked.
     *
     * @throws IllegalArgumentException where the type of the controller forbids it: reserved addresses, too many, or
     *     registers that a read clears
     * @throws RejectedExecutionException where too many wait already or the line has ended
     */
    public Future<Outcome> ask(ReadRequest request) {
        Question question = new Question(permitted(request), new CompletableFuture<>());
        synchronized (waiting) {
            waiting.removeIf(other -> other.answer.isDone());
            if (closed || waiting.size() >= MOST_WAITING) {
                throw new RejectedExecutionException(
                        closed
                                ? "this line was closed"
                                : MOST_WAITING + " reads wait already, which is all there may be");
            }
            waiting.add(question);
        }
        wake.run();
        return question.answer;
    }

    private ReadRequest permitted(ReadRequest request) {
        AddressRange range = AddressRange.of(request.table(), request.first(), request.count());
        ReadRequest permitted = with(request, request.table(), ReadTerms.USUAL);
        for (ControllerDefinition controller : controllers) {
            if (controller.unit().equals(request.unit())) {
                ReadRules rules = controller.type().rules();
                objection(controller, range).ifPresent(objection -> {
                    throw new IllegalArgumentException(controller.name() + ": " + objection);
                });
                permitted = with(
                        request,
                        rules.readTable(request.table()),
                        new ReadTerms(controller.anyReplyUnit(), false, rules.pause()));
            }
        }
        return permitted;
    }

    private static ReadRequest with(ReadRequest request, RegisterTable table, ReadTerms terms) {
        return new ReadRequest(request.unit(), table, request.first(), request.count(), terms);
    }

    private static Optional<String> objection(ControllerDefinition controller, AddressRange range) {
        ReadRules rules = controller.type().rules();
        return rules.objectionTo(range)
                .or(() -> controller.type().points().stream()
                        .filter(point -> point.consistency().once())
                        .filter(point -> point.addresses().stream().anyMatch(own -> rules.overlap(own, range)))
                        .findFirst()
                        .map(point -> range + " reaches into " + point.name() + ", which a read clears"));
    }

    /** The read that waits longest. */
    Optional<Question> next() {
        synchronized (waiting) {
            waiting.removeIf(question -> question.answer.isDone());
            return Optional.ofNullable(waiting.peek());
        }
    }

    /** The first moment at or after now at which there is time for one. */
    long enoughAt(long now) {
        return share.enoughAt(replyTimeout, now);
    }

    /** A read took the line for some nanoseconds; where it has no answer it never will have one. */
    void over(Question question, long took, long now) {
        synchronized (waiting) {
            waiting.remove(question);
        }
        share.spend(took, now);
        question.answer.cancel(false);
    }

    void close() {
        synchronized (waiting) {
            closed = true;
            waiting.forEach(question -> question.answer.cancel(false));
            waiting.clear();
        }
    }
}
