package burnerbridge.scan;

import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** How some reads are made at one moment, beside what the plan predicts. */
public sealed interface ScanRow {

    /** The name of the line. */
    String line();

    /**
     * All reads of a line.
     *
     * @param reads how many they are
     * @param scan how long the plan predicts that it takes to make each of them once
     * @param load the share of the line's time that the plan predicts, 1 for all of it
     * @param measuredLoad of the last minute, time-outs included; null at the start
     */
    record Line(
            String line,
            int reads,
            Duration scan,
            double load,
            @Nullable Double measuredLoad) implements ScanRow {}

    /**
     * The reads of one controller that are wanted at one interval.
     *
     * @param scan how long the plan predicts that it takes to make each of them once, pauses included
     * @param measuredScan how long it took; null until each was answered
     * @param load the share of the line's time that the plan predicts for them
     * @param turnaround of the controller, as the plan was made with it
     * @param learned the turnaround as it was measured; null where it is not
     * @param achieved how often each was answered of late; null until that is known
     * @param leftOut turns that were left out since the line was busy with others
     * @param requests since the start
     * @param link {@code up}; {@code no-reply} or {@code line-down} of a dead one; {@code not-asked-yet}
     * @param detail for people; empty where there is nothing to say
     * @param refused the points that the controller refuses, the first few of them by name
     * @param refusedCount how many they are
     */
    record Controller(
            String line,
            String controller,
            Duration every,
            int reads,
            Duration scan,
            @Nullable Duration measuredScan,
            double load,
            Duration turnaround,
            @Nullable Duration learned,
            @Nullable Duration achieved,
            long leftOut,
            long requests,
            String link,
            String detail,
            List<String> refused,
            int refusedCount)
            implements ScanRow {
        public Controller {
            refused = List.copyOf(refused);
        }

        /** Whether it does not answer, or the line is down. */
        public boolean isDown() {
            return link.equals("no-reply") || link.equals("line-down");
        }
    }
}
