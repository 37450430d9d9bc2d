package burnerbridge.poll;

import burnerbridge.line.Outcome;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.SitePoint;
import java.util.HashSet;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Tells what a line's reads come to: each change once, so that a bad line does not fill the log. */
final class LineLog {
    private static final Logger LOG = LoggerFactory.getLogger(LinePoller.class);
    private static final int CONTROLLER_FAULT = 4;

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
     */
    void unanswered(Schedule asked, String how) {
        if (asked.health.isLost()) {
            return;
        }
        int times = asked.unanswered();
        if (times == ControllerHealth.SILENCES_UNTIL_LOST) {
            LOG.warn("line {}: {}: {} in a row of {} tries", line, names(asked.block), how, times);
        }
    }

    void answered(Schedule asked) {
        if (asked.answered() >= ControllerHealth.SILENCES_UNTIL_LOST) {
            LOG.info("line {}: {} is answered again", line, names(asked.block));
        }
    }

    private static String names(ReadBlock block) {
        SitePoint first = block.points().get(0);
        return first.id() + " at " + first.definition().addressText();
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
                        "line {}: {} at {} is refused with exception {} ({})",
                        line,
                        point.id(),
                        definition.addressText(),
                        refused.code(),
                        Refusal.meaning(refused.code()));
            }
        }
    }

    private void controllerFault(ReadBlock block, Outcome.Refused refused) {
        if (isNew(block.controller().name().text(), refused)) {
            LOG.warn(
                    "line {}: controller {} tells a fault of its own (exception {}, {}) in place of {}",
                    line,
                    block.controller().name(),
                    refused.code(),
                    Refusal.meaning(refused.code()),
                    names(block));
        }
    }

    /** Once for each function of a controller. */
    void noFunction(ReadBlock block, int reads, Outcome.Refused refused) {
        if (isNew(block.controller().name() + " " + block.function(), refused)) {
            LOG.warn(
                    "line {}: controller {} does not know function {} (exception {}, {}), so that all of its {} reads"
                            + " by it are refused",
                    line,
                    block.controller().name(),
                    block.function(),
                    refused.code(),
                    Refusal.meaning(refused.code()),
                    reads);
        }
    }

    private boolean isNew(String what, Outcome.Refused refused) {
        return told.add(new Told(what, refused.code()));
    }

    void notConnected(Outcome.NotConnected notConnected) {
        LOG.warn("line {}: not connected: {}; trying again until it is", line, notConnected.why());
    }

    void connected() {
        LOG.info("line {}: connected", line);
    }
}
