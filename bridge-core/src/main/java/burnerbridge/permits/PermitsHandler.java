package burnerbridge.permits;

import burnerbridge.control.Reply;
import burnerbridge.control.Request;
import burnerbridge.control.RequestException;
import burnerbridge.control.RequestHandler;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ApprovalDesk.CannotApproveException;
import burnerbridge.write.Gatehouse;
import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import java.util.function.LongConsumer;

/**
 * Answers {@code {"ask":"permits"}} with a line of all and one of each permit; {@code
 * {"ask":"approve-permits","by":"…","hash":"…"}} and {@code {"ask":"withdraw-permits","by":"…"}} with what was done.
 */
public final class PermitsHandler {
    public static final String SHOW = "permits";
    public static final String APPROVE = "approve-permits";
    public static final String WITHDRAW = "withdraw-permits";

    /** Less than whoever asks waits for an answer. */
    private static final Duration PATIENCE = Duration.ofSeconds(6);

    private final Site site;
    private final ValueTable table;
    private final Optional<Gatehouse> gatehouse;
    private final String trouble;
    private final LongConsumer pause;

    /**
     * @param trouble why there is no gatehouse
     * @param pause lets at most so many nanoseconds pass
     */
    public PermitsHandler(
            Site site, ValueTable table, Optional<Gatehouse> gatehouse, String trouble, LongConsumer pause) {
        this.site = site;
        this.table = table;
        this.gatehouse = gatehouse;
        this.trouble = trouble;
        this.pause = pause;
    }

    public RequestHandler show() {
        return (request, reply) -> {
            PermitsView view = gatehouse
                    .map(house -> DeskView.of(house.desk(), site, table, house.statuses()))
                    .orElseGet(() -> PermitsView.inTrouble(trouble));
            reply.line(json -> PermitsJson.write(json, view));
            for (PermitRow row : view.rows()) {
                reply.line(json -> PermitsJson.write(json, row));
            }
        };
    }

    public RequestHandler approve() {
        return (request, reply) -> {
            String by = name(request);
            if (!approved(by, request.text("hash"))) {
                throw new RequestException(
                        "not-quiet",
                        "what stands in the controllers could not be taken back within " + PATIENCE.toSeconds()
                                + " s, so that nothing was approved; try again when they answer");
            }
            say(reply, "approved by " + by + "; in force now");
        };
    }

    private boolean approved(String by, String hash) throws RequestException {
        try {
            return house().approve(by, Optional.of(hash), PATIENCE, pause);
        } catch (CannotApproveException e) {
            throw new RequestException("cannot-approve", String.valueOf(e.getMessage()));
        } catch (IOException e) {
            throw new RequestException("not-kept", String.valueOf(e.getMessage()));
        }
    }

    public RequestHandler withdraw() {
        return (request, reply) -> {
            String by = name(request);
            String left = withdrawn(by)
                    ? ""
                    : ". What a demand left in a controller could not be taken back within " + PATIENCE.toSeconds()
                            + " s, and stays there";
            say(reply, "withdrawn by " + by + "; nothing is approved any more" + left);
        };
    }

    private boolean withdrawn(String by) throws RequestException {
        try {
            return house().withdraw(by, PATIENCE, pause);
        } catch (IOException e) {
            throw new RequestException("not-kept", String.valueOf(e.getMessage()));
        }
    }

    private Gatehouse house() throws RequestException {
        return gatehouse.orElseThrow(() -> new RequestException("no-gate", trouble));
    }

    private static String name(Request request) throws RequestException {
        String by = request.text("by").strip();
        Optional<String> objection = PersonName.objectionTo(by);
        if (objection.isPresent()) {
            throw new RequestException("bad-argument", "by " + objection.get());
        }
        return by;
    }

    private static void say(Reply reply, String sentence) throws IOException {
        reply.line(json -> json.writeStringProperty("done", sentence));
    }
}
