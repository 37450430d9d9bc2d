package burnerbridge.simulator.plant;

import burnerbridge.simulator.plant.fire.Fuel;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** The last lockouts in a ring: the newest takes the place of the oldest. */
final class FaultLog {
    static final int DEPTH = 8;
    private static final List<Cause> LONG_AGO = List.of(
            Cause.FLAME_LOST,
            Cause.LOW_GAS_PRESSURE,
            Cause.NO_PILOT_FLAME,
            Cause.FLAME_LOST,
            Cause.AIR_NOT_PROVEN,
            Cause.NO_MAIN_FLAME,
            Cause.DAMPER_ASTRAY,
            Cause.HIGH_LIMIT);

    private final List<FaultRecord> slots = new ArrayList<>();
    private int newest = DEPTH - 1;

    /**
     * Full of lockouts of the weeks before.
     *
     * @param starts of the burner by now
     */
    FaultLog(Instant now, long starts, List<Fuel> fuels, Random random) {
        Instant at = now.minus(Duration.ofDays(100));
        for (int i = 0; i < DEPTH; i++) {
            at = at.plusSeconds(86_400 * 3 + random.nextInt(86_400 * 9));
            Cause cause = LONG_AGO.get(i);
            boolean firing = cause == Cause.FLAME_LOST || cause == Cause.DAMPER_ASTRAY || cause == Cause.HIGH_LIMIT;
            slots.add(new FaultRecord(
                    cause,
                    at,
                    firing ? Phase.MODULATION : phaseOf(cause),
                    firing ? 30 + random.nextInt(60) : 0,
                    fuels.get(i % fuels.size()),
                    starts - 240 + 29L * i));
        }
    }

    private static Phase phaseOf(Cause cause) {
        return switch (cause) {
            case NO_PILOT_FLAME -> Phase.PILOT_TRIAL;
            case NO_MAIN_FLAME -> Phase.MAIN_TRIAL;
            case AIR_NOT_PROVEN -> Phase.PRE_PURGE;
            default -> Phase.IGNITION;
        };
    }

    void add(FaultRecord record) {
        newest = (newest + 1) % DEPTH;
        slots.set(newest, record);
    }

    /** As they lie in the ring. */
    List<FaultRecord> slots() {
        return List.copyOf(slots);
    }

    /** In which of the slots the newest lies, from 0. */
    int newest() {
        return newest;
    }
}
