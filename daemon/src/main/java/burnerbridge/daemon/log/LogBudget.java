package burnerbridge.daemon.log;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * How many lines a log may take: sixty a minute for long, with some saved up for a start or a storm. A line that is the
 * same as one of the last minute is counted instead; what finds no room is counted, too. Warnings find room where others
 * do not any more, and errors have room of their own. Safe for any number of threads.
 */
final class LogBudget {
    /** How heavy a line is. */
    enum Weight {
        NEWS,
        WARNING,
        ERROR
    }

    /** What is to be said of lines that were not written. */
    record Note(Weight weight, String sentence) {}

    static final Duration WINDOW = Duration.ofMinutes(1);
    private static final double A_SECOND = 1;
    private static final double SAVED_UP = 240;
    private static final double KEPT_FOR_WARNINGS = 60;
    private static final double ERRORS_SAVED_UP = 60;
    private static final int MOST_REMEMBERED = 256;
    private static final double NANOS = 1e9;

    private final Map<String, Told> told = new LinkedHashMap<>();
    private double room = SAVED_UP;
    private double roomForErrors = ERRORS_SAVED_UP;
    private long filledAt;
    private long leftOutSince;
    private long leftOut;
    private long warningsLeftOut;

    private static final class Told {
        private final Weight weight;
        private final long since;
        private long more;

        Told(Weight weight, long since) {
            this.weight = weight;
            this.since = since;
        }
    }

    LogBudget(long now) {
        this.filledAt = now;
    }

    /** Whether a line is to be written now; where not, it is counted. */
    synchronized boolean takes(Weight weight, String line, long now) {
        fill(now);
        Told before = told.get(line);
        if (before != null && now - before.since < WINDOW.toNanos()) {
            before.more++;
            return false;
        }
        if (!hasRoom(weight)) {
            leftOutSince = leftOut == 0 ? now : leftOutSince;
            leftOut++;
            warningsLeftOut += weight == Weight.NEWS ? 0 : 1;
            return false;
        }
        if (before == null && told.size() < MOST_REMEMBERED) {
            told.put(line, new Told(weight, now));
        }
        return true;
    }

    private void fill(long now) {
        double gained = (now - filledAt) / NANOS * A_SECOND;
        room = Math.min(SAVED_UP, room + gained);
        roomForErrors = Math.min(ERRORS_SAVED_UP, roomForErrors + gained);
        filledAt = now;
    }

    private boolean hasRoom(Weight weight) {
        if (weight == Weight.ERROR) {
            boolean hasOwn = roomForErrors >= 1;
            roomForErrors -= hasOwn ? 1 : 0;
            return hasOwn;
        }
        boolean has = room >= 1 + (weight == Weight.NEWS ? KEPT_FOR_WARNINGS : 0);
        room -= has ? 1 : 0;
        return has;
    }

    /** What is to be told of lines whose minute is over. To be called now and then, and before a line that is written. */
    synchronized List<Note> due(long now) {
        List<Note> notes = new ArrayList<>();
        Iterator<Map.Entry<String, Told>> all = told.entrySet().iterator();
        while (all.hasNext()) {
            Map.Entry<String, Told> one = all.next();
            Told line = one.getValue();
            if (now - line.since >= WINDOW.toNanos()) {
                all.remove();
                if (line.more > 0) {
                    notes.add(new Note(line.weight, one.getKey() + " (" + line.more + " more times within a minute)"));
                }
            }
        }
        if (leftOut > 0 && now - leftOutSince >= WINDOW.toNanos()) {
            notes.add(new Note(
                    warningsLeftOut > 0 ? Weight.WARNING : Weight.NEWS,
                    "log: " + leftOut + " lines were left out within a minute, " + warningsLeftOut
                            + " of them warnings or errors, since there were too many"));
            leftOut = 0;
            warningsLeftOut = 0;
        }
        return notes;
    }
}
