package burnerbridge.poll;

import burnerbridge.site.SitePoint;
import java.util.List;
import java.util.OptionalLong;

/**
 * Work that is done on a line's own thread between two polls, a piece at a time; never two pieces while a poll is due.
 * It reads and writes over the line by itself. Its failures count against no controller, but a lost one that answers it
 * is found again. One that throws is told, rests for ten seconds, and keeps no poll from being made.
 */
public interface LineErrand {
    LineErrand NONE = new LineErrand() {
        @Override
        public OptionalLong readyAt(long now) {
            return OptionalLong.empty();
        }

        @Override
        public List<SitePoint> run() {
            return List.of();
        }
    };

    /** The tick from which it has something to do; empty where it has nothing. Called often, on the line's thread. */
    OptionalLong readyAt(long now);

    /**
     * Does one piece.
     *
     * @return the points that should be read soon, since they may have changed
     */
    List<SitePoint> run();
}
