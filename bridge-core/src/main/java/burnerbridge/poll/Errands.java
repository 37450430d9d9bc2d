package burnerbridge.poll;

import burnerbridge.model.BridgeClock;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The turns of a line's errand: one piece between two polls. An errand that fails rests, and stops no poll. */
final class Errands {
    private static final Logger LOG = LoggerFactory.getLogger(Errands.class);
    static final Duration REST_AFTER_FAILURE = Duration.ofSeconds(10);

    private final String line;
    private final BridgeClock clock;
    private LineErrand errand = LineErrand.NONE;
    private boolean turn = true;
    private Optional<Long> restUntil = Optional.empty();
    private volatile Runnable wake = () -> {};

    Errands(String line, BridgeClock clock) {
        this.line = line;
        this.clock = clock;
    }

    void are(LineErrand other) {
        errand = other;
    }

    void whenWoken(Runnable wakes) {
        wake = wakes;
    }

    void woken() {
        wake.run();
    }

    /** A poll was made, or none is due. */
    void newTurn() {
        turn = true;
    }

    /** Whether it has its turn and something to do. */
    boolean isNext(long now) {
        return turn && readyAt(now).filter(ready -> ready - now <= 0).isPresent();
    }

    /** The tick from which there is something to do; empty where there is nothing. */
    Optional<Long> readyAt(long now) {
        if (restUntil.isPresent() && restUntil.get() - now > 0) {
            return restUntil;
        }
        try {
            return errand.readyAt(now).stream().boxed().findFirst();
        } catch (RuntimeException e) {
            failed(e);
            return restUntil;
        }
    }

    /** Does one piece; what should be read soon. */
    List<SitePoint> run() {
        turn = false;
        try {
            return errand.run();
        } catch (RuntimeException e) {
            failed(e);
            return List.of();
        }
    }

    /** A defect of ours, which must not keep the line from being read. */
    private void failed(RuntimeException e) {
        LOG.error("line {}: an errand failed and will be tried again in {} s", line, REST_AFTER_FAILURE.toSeconds(), e);
        restUntil = Optional.of(clock.ticks() + REST_AFTER_FAILURE.toNanos());
    }
}
