package burnerbridge.site;

import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What a point is to the burner. It decides how often it is read and whether it can ever be written. */
public enum Role {
    MEASUREMENT(Duration.ofSeconds(2)),
    STATUS(Duration.ofSeconds(2)),
    COUNTER(Duration.ofMinutes(1)),
    IDENTITY(Duration.ofHours(1)),
    FAULT_RECORD(Duration.ofSeconds(30)),
    SETTING(Duration.ofHours(1)),
    SAFETY_SETTING(Duration.ofHours(1)),
    CURVE(Duration.ofHours(1)),
    LOCKOUT_RESET(null),
    RECORD_SELECT(null),
    DEMAND(Duration.ofSeconds(2)),
    ENABLE(Duration.ofSeconds(2)),
    MODE(Duration.ofSeconds(2)),
    CLOCK(Duration.ofMinutes(1)),
    HEARTBEAT(Duration.ofSeconds(2));

    private final @Nullable Duration every;

    Role(@Nullable Duration every) {
        this.every = every;
    }

    /** How often a point of this role is read where its row does not say; empty: it is not polled. */
    public Optional<Duration> defaultEvery() {
        return Optional.ofNullable(every);
    }

    /**
     * Whether a point of this role can ever be given a write permit. Of all others every register is protected; there
     * is no way round.
     */
    public boolean mayBePermitted() {
        return switch (this) {
            case DEMAND, ENABLE, MODE, HEARTBEAT, RECORD_SELECT -> true;
            default -> false;
        };
    }

    /** The word used in the point list: {@code fault-record}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
