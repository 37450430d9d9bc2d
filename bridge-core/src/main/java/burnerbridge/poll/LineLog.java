package burnerbridge.poll;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import java.util.HashSet;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Tells what a line's reads come to: each change once, so that a bad line does not fill the log. */
final class LineLog {
    private static final Logger LOG = LoggerFactory.getLogger(LinePoller.class);
    private static final int CONTROLLER_FAULT = 4;
    /** All pauses before the longest, with which it is told. */
    private static final int BUSY_SECONDS = 1 + 2 + 4 + 8;

    private final String line;
    private final Set<Told> told = new HashSet<>();

    /** That something was refused with a code was told: a point, or a function, or a controller as a whole. */
    private record Told(String what, int code) {}

    LineLog(String line) {
        this.line = line;
    }

    /**
     * A read that alone goes unanswered is told once; where all do, the controller is lost and told as such, and
     * what it is asked meanwhile to see whether it is back counts for nothing.
     *
     * @param what what came instead of an answer, as in {@code no reply to} 3 tries in a row
     */
    void unanswered(Schedule asked, String what) {
        if (asked.controller.health.isLost()) {
            return;
        }
        int times = asked.unanswered();
        if (times == ControllerHealth.SILENCES_UNTIL_LOST) {
            LOG.warn("line {}: {}: {} {} tries in a row", line, names(asked.block), what, times);
        }
    }

    void answered(Schedule asked) {
        if (asked.answered() >= ControllerHealth.SILENCES_UNTIL_LOST) {
            LOG.info("line {}: {}: is answered again", line, names(asked.block));
        }
    }

    private static String names(ReadBlock block) {
        SitePoint first = block.points().get(0);
        return first.id() + " at " + first.definition().addressText();
    }

    void isBusy(ReadRequest request, int code) {
        LOG.debug("line {}: {}: {}", line, request, exception(code));
    }

    void busy(ReadBlock block, int code) {
        LOG.warn("line {}: {}: {}, to every try for {} s", line, names(block), exception(code), BUSY_SECONDS);
    }

    void noLongerBusy(ReadBlock block) {
        LOG.info("line {}: {}: is no longer answered with busy", line, names(block));
    }

    void busy(ControllerDefinition controller, int code) {
        LOG.warn(
                "line {}: controller {}: has been busy for {} s ({})",
                line,
                controller.name(),
                BUSY_SECONDS,
                exception(code));
    }

    void noLongerBusy(ControllerDefinition controller) {
        LOG.info("line {}: controller {}: is no longer busy", line, controller.name());
    }

    void lost(ControllerDefinition controller, String detail) {
        LOG.warn("line {}: controller {}: is lost: {}", line, controller.name(), detail);
    }

    void there(ControllerDefinition controller, ControllerLink before) {
        LOG.info(
                "line {}: controller {}: answers{}",
                line,
                controller.name(),
                before.cause() == Cause.NO_REPLY ? " again" : "");
    }

    /** Once for each point and code; a fault of the controller itself once for the controller. */
    void refused(ReadBlock block, Outcome.Refused refused) {
        if (refused.code() == CONTROLLER_FAULT) {
            controllerFault(block, refused);
            return;
        }
        for (SitePoint point : block.points()) {
            PointDefinition definition = point.definition();
            if (isNew(point.id().toString(), refused)) {
                LOG.warn(
                        "line {}: {} at {}: is refused with {}",
                        line,
                        point.id(),
                        definition.addressText(),
                        exception(refused.code()));
            }
        }
    }

    private void controllerFault(ReadBlock block, Outcome.Refused refused) {
        if (isNew(block.controller().name().text(), refused)) {
            LOG.warn(
                    "line {}: controller {}: reports a failure of its own ({}) when asked for {}",
                    line,
                    block.controller().name(),
                    exception(refused.code()),
                    names(block));
        }
    }

    /** Once for each function of a controller. */
    void noFunction(ReadBlock block, int reads, Outcome.Refused refused) {
        if (isNew(block.controller().name() + " " + block.function(), refused)) {
            LOG.warn(
                    "line {}: controller {}: does not know function {}: {}, to {} by it",
                    line,
                    block.controller().name(),
                    block.function(),
                    exception(refused.code()),
                    reads == 1 ? "the only read" : "each of the " + reads + " reads");
        }
    }

    /** For messages: {@code exception 6, server device busy}. */
    static String exception(int code) {
        return "exception " + code + ", " + Refusal.meaning(code);
    }

    private boolean isNew(String what, Outcome.Refused refused) {
        return told.add(new Told(what, refused.code()));
    }

    void notConnected(Outcome.NotConnected notConnected) {
        LOG.warn("line {}: is not connected: {}; will be tried until it is", line, notConnected.why());
    }

    void connected() {
        LOG.info("line {}: is connected", line);
    }
}
