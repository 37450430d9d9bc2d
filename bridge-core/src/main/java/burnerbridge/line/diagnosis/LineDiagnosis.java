package burnerbridge.line.diagnosis;

import burnerbridge.line.Outcome;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.LineDefinition;
import java.time.Duration;
import java.util.List;
import java.util.function.Supplier;

/**
 * Looks at a line's counters now and then, and tells what to look at on the line: every minute, or later
 * where fewer than {@value #ENOUGH} requests have left by then, at the latest after ten; and once there have
 * been 5, 10, 20 and so on failures, so that a line that never worked is told at once. Stepped by
 * whoever does the transactions, on that one thread; {@link #findings} is for any. It only tells: what it
 * finds never decides about a reply.
 */
public final class LineDiagnosis {
    static final Duration WINDOW = Duration.ofMinutes(1);
    static final Duration LONGEST_WINDOW = Duration.ofMinutes(10);
    static final int ENOUGH = 20;
    private static final int FIRST_EARLY_LOOK = 5;

    private final Supplier<Census> counters;
    private final Rules rules;
    private final BridgeClock clock;
    private final Windows windows;
    private final Standing standing;
    private long since;
    private int requests;
    private int failures;
    private int nextEarlyLook = FIRST_EARLY_LOOK;
    private volatile List<Finding> findings = List.of();

    /** @param counters asked for the counts since the start, at each look */
    public LineDiagnosis(LineDefinition line, Supplier<Census> counters, BridgeClock clock) {
        this.counters = counters;
        this.rules = new Rules(line);
        this.clock = clock;
        this.since = clock.ticks();
        this.windows = new Windows(since);
        this.standing = new Standing(line.name().text());
    }

    /** What stands now: what was found and is not over. */
    public List<Finding> findings() {
        return findings;
    }

    /** After each transaction, when it has been counted. */
    public void after(Outcome outcome) {
        if (outcome instanceof Outcome.NotConnected) {
            return;
        }
        requests++;
        failures += outcome instanceof Outcome.Silent || outcome instanceof Outcome.Broken ? 1 : 0;
        long now = clock.ticks();
        if (isWindowOver(now - since)) {
            endWindow(now);
        } else if (failures >= nextEarlyLook) {
            nextEarlyLook *= 2;
            lookEarly(now);
        }
    }

    private boolean isWindowOver(long age) {
        return age >= WINDOW.toNanos() && (requests >= ENOUGH || age >= LONGEST_WINDOW.toNanos());
    }

    private void lookEarly(long now) {
        Change change = windows.change(counters.get(), now);
        standing.found(rules.findings(change));
        findings = standing.findings();
    }

    private void endWindow(long now) {
        Census census = counters.get();
        Change change = windows.change(census, now);
        List<Finding> found = rules.findings(change);
        standing.found(found);
        standing.endWindow(found, finding -> isDecided(finding, change));
        findings = standing.findings();
        windows.renew(census, change, now);
        since = now;
        requests = 0;
        failures = 0;
        nextEarlyLook = FIRST_EARLY_LOOK;
    }

    /** Whether enough was asked to say that something is not so any more. */
    private static boolean isDecided(Finding finding, Change change) {
        return finding.unit() == null
                ? change.line().saysSomething()
                : change.units().containsKey(finding.unit());
    }
}
