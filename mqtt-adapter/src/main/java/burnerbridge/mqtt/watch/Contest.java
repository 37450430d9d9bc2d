package burnerbridge.mqtt.watch;

import burnerbridge.model.Stamp;
import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Whether another client fights with us for our client identifier, which a broker has only once: each that connects
 * throws the other out (MQTT 5.0, 3.1.4; MQTT 3.1.1, 3.1.4). A broker that speaks MQTT 5 should say so; others only
 * close. Where both came back at once they would throw each other out for ever, so the pauses grow while it goes on. Used
 * by one thread.
 */
public final class Contest {
    /** So many connections in a row that the broker closed without a word, none of which held, are no accident. */
    public static final int MANY = 3;

    /** After the first time. */
    public static final Duration FIRST_PAUSE = Duration.ofSeconds(30);

    public static final Duration LONGEST_PAUSE = Duration.ofMinutes(2);
    /** One that held for so long has outlasted every pause of another's. */
    public static final Duration OVER_AFTER = Duration.ofMinutes(5);

    private long pause = FIRST_PAUSE.toNanos();
    private int inARow;
    private int times;
    private boolean said;
    private @Nullable Stamp since;

    /**
     * A connection that had been open ended by itself.
     *
     * @param taken whether the broker says that another client has it
     * @param silently whether the broker closed it and said nothing
     * @param held for how many nanoseconds it was open
     * @return whether it was most likely another client
     */
    public boolean ended(boolean taken, boolean silently, long held, Stamp now) {
        boolean cut = silently && held < OVER_AFTER.toNanos();
        inARow = cut ? inARow + 1 : 0;
        if (!taken && !(cut && since != null) && inARow < MANY) {
            return false;
        }
        if (since == null) {
            since = now;
            times = taken ? 0 : inARow - 1;
        }
        said |= taken;
        times++;
        return true;
    }

    /** The pause after an ending that was another client's doing, nanoseconds; each is longer than the one before. */
    public long nextPause() {
        long now = pause;
        pause = Math.min(2 * pause, LONGEST_PAUSE.toNanos());
        return now;
    }

    /** Says for how long the present connection is open, and returns whether that ends it. */
    public boolean isOverBy(long held) {
        if (held < OVER_AFTER.toNanos() || since == null) {
            return false;
        }
        since = null;
        said = false;
        inARow = 0;
        times = 0;
        pause = FIRST_PAUSE.toNanos();
        return true;
    }

    /** Since when it goes on; empty where it does not. */
    public Optional<Stamp> since() {
        return Optional.ofNullable(since);
    }

    /** How often the connection was lost to it by now. */
    public int times() {
        return times;
    }

    /** Whether the broker says so; else it only looks like it. */
    public boolean isSaid() {
        return said;
    }
}
