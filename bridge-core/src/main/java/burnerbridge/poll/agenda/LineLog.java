package burnerbridge.poll.agenda;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.plan.Prediction;
import burnerbridge.plan.ReadBlock;
import burnerbridge.poll.pace.Behind;
import burnerbridge.poll.pace.IntervalPace;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.HashSet;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Tells what a line's reads come to: each change once, so that a bad line does not fill the log. */
public final class LineLog {
    private static final Logger LOG = LoggerFactory.getLogger("burnerbridge.poll.LinePoller");
    private static final int CONTROLLER_FAULT = 4;
    /** All pauses before the longest, with which it is told. */
    private static final int BUSY_SECONDS = 1 + 2 + 4 + 8;

    private final String line;
    private final Set<Told> told = new HashSet<>();
    private final Set<SitePoint> accepted = new HashSet<>();

    /** That something was refused with a code was told: a point, or a function, or a controller as a whole. */
    private record Told(ControllerDefinition controller, String what, int code) {}

    public LineLog(String line) {
        this.line = line;
    }

    /**
     * A read that alone goes unanswered is told once.
     *
     * @param what what came instead of an answer, as in {@code no reply to} 3 tries in a row
     */
    public void unanswered(ReadBlock block, String what, int times) {
        if (times == ControllerHealth.SILENCES_UNTIL_LOST) {
            LOG.warn("line {}: {}: {} {} tries in a row", line, names(block), what, times);
        }
    }

    /** @param before how often in a row it was not answered before */
    public void answered(ReadBlock block, int before) {
        if (before >= ControllerHealth.SILENCES_UNTIL_LOST) {
            LOG.info("line {}: {}: is answered again", line, names(block));
        }
    }

    public void isBroken(ReadRequest request, Outcome.Broken broken) {
        LOG.debug("line {}: {}: {}", line, request, broken.what());
    }

    private static String names(ReadBlock block) {
        SitePoint first = block.points().get(0);
        return first.id() + " at " + first.definition().addressText();
    }

    public void isBusy(ReadRequest request, int code) {
        LOG.debug("line {}: {}: {}", line, request, exception(code));
    }

    public void busy(ReadBlock block, int code) {
        LOG.warn("line {}: {}: {}, to every try for {} s", line, names(block), exception(code), BUSY_SECONDS);
    }

    public void noLongerBusy(ReadBlock block) {
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
    public void refused(ReadBlock block, Outcome.Refused refused) {
        if (refused.code() == CONTROLLER_FAULT) {
            controllerFault(block, refused);
            return;
        }
        for (SitePoint point : block.points()) {
            PointDefinition definition = point.definition();
            if (isNew(block, point.id().toString(), refused)) {
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
        if (isNew(block, "", refused)) {
            LOG.warn(
                    "line {}: controller {}: reports a failure of its own ({}) when asked for {}",
                    line,
                    block.controller().name(),
                    exception(refused.code()),
                    names(block));
        }
    }

    /** Once for each function of a controller. */
    public void noFunction(ReadBlock block, Outcome.Refused refused) {
        if (isNew(block, "function " + block.function(), refused)) {
            LOG.warn(
                    "line {}: controller {}: does not know function {}: {}, to every read by it",
                    line,
                    block.controller().name(),
                    block.function(),
                    exception(refused.code()));
        }
    }

    /** A read of several points is taken apart; told once for each. */
    public void split(ReadBlock block, Outcome.Refused refused) {
        if (isNew(block, "parts of " + block.requests(), refused)) {
            LOG.info(
                    "line {}: {} and {} more read with it: {}; asking for parts of it to find out for which",
                    line,
                    names(block),
                    block.points().size() - 1,
                    exception(refused.code()));
        }
    }

    /** What was refused is answered; told once for each point. */
    public void accepted(ReadBlock block) {
        for (SitePoint point : block.points()) {
            if (accepted.add(point)) {
                LOG.info(
                        "line {}: {} at {}: is refused no longer",
                        line,
                        point.id(),
                        point.definition().addressText());
            }
        }
    }

    /** @param refused whether there is anything to be asked anew */
    public void askedAnew(ControllerDefinition controller, boolean refused) {
        told.removeIf(what -> what.controller().equals(controller));
        accepted.removeIf(point -> point.controller().equals(controller));
        if (refused) {
            LOG.info(
                    "line {}: controller {}: may be another now; asking anew for what it refused",
                    line,
                    controller.name());
        }
    }

    /** The plan was made anew for a controller that thinks for longer or less than was assumed. */
    public void learned(
            ControllerDefinition controller, Duration before, Duration learned, Prediction old, Prediction anew) {
        LOG.info(
                "line {}: controller {}: its turnaround is {}, where {} was planned for: {} now in place of"
                        + " {}; predicted load of the line {} in place of {}",
                line,
                controller.name(),
                millis(learned),
                millis(before),
                reads(anew, controller),
                reads(old, controller),
                percent(anew.line().share()),
                percent(old.line().share()));
    }

    private static String reads(Prediction prediction, ControllerDefinition controller) {
        int reads =
                Objects.requireNonNull(prediction.controllers().get(controller)).reads();
        return reads + (reads == 1 ? " read" : " reads");
    }

    private static String millis(Duration time) {
        return BigDecimal.valueOf(time.toNanos(), 6).setScale(1, RoundingMode.HALF_UP) + " ms";
    }

    private static String percent(double share) {
        return BigDecimal.valueOf(100 * share).setScale(1, RoundingMode.HALF_UP) + " %";
    }

    public void pace(Behind.Change change, Optional<IntervalPace> worst) {
        if (!change.behind()) {
            LOG.info("line {}: keeps its intervals again", line);
            return;
        }
        LOG.warn(
                "line {}: is overloaded: {} of {} reads wanted within a minute were left out{}",
                line,
                change.leftOut(),
                change.wanted(),
                worst.map(LineLog::lag).orElse(""));
    }

    private static String lag(IntervalPace pace) {
        return "; controller " + pace.controller().name() + " is read every "
                + pace.achieved().map(LineLog::seconds).orElse("?") + " where every " + seconds(pace.every())
                + " is wanted";
    }

    private static String seconds(Duration time) {
        return BigDecimal.valueOf(time.toMillis(), 3)
                        .setScale(1, RoundingMode.HALF_UP)
                        .stripTrailingZeros()
                        .toPlainString()
                + " s";
    }

    /** For messages: {@code exception 6, server device busy}. */
    public static String exception(int code) {
        return "exception " + code + ", " + Refusal.meaning(code);
    }

    private boolean isNew(ReadBlock block, String what, Outcome.Refused refused) {
        return told.add(new Told(block.controller(), what, refused.code()));
    }

    public void notConnected(Outcome.NotConnected notConnected) {
        LOG.warn("line {}: is not connected: {}; will be tried until it is", line, notConnected.why());
    }

    public void connected() {
        LOG.info("line {}: is connected", line);
    }
}
