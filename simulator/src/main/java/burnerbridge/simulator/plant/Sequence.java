package burnerbridge.simulator.plant;

import burnerbridge.simulator.plant.fire.FuelSettings;
import java.time.Duration;

/** The order in which a burner starts and ends, and what locks it out on the way. */
final class Sequence {
    private static final Duration AIR_BY = Duration.ofSeconds(5);
    private static final Duration LIGHT_OFF_AT_LEAST = Duration.ofSeconds(2);
    private static final Duration LIGHT_OFF_AT_MOST = Duration.ofSeconds(25);

    private final BoilerSettings settings;
    private Phase phase = Phase.STANDBY;
    private Cause cause = Cause.NONE;
    private long stepsInPhase;
    private long stepsWithoutFlame;

    /**
     * What it goes by at one moment.
     *
     * @param wanted whether the burner is to run
     * @param flame whether one is seen
     * @param shortage the cause where the fuel has too little pressure, else none
     * @param trip the cause where something ends its operation at once, else none
     */
    record Conditions(
            boolean wanted, boolean flame, boolean airProven, boolean atLightOff, Cause shortage, Cause trip) {}

    Sequence(BoilerSettings settings) {
        this.settings = settings;
    }

    Phase phase() {
        return phase;
    }

    Cause cause() {
        return cause;
    }

    Duration inPhase() {
        return Boiler.STEP.multipliedBy(stepsInPhase);
    }

    boolean lasted(Duration length) {
        return inPhase().compareTo(length) >= 0;
    }

    /** How long the present phase takes; zero where it has no set end. */
    Duration length(FuelSettings fuel) {
        return switch (phase) {
            case PRE_PURGE -> settings.times().prePurge();
            case PILOT_TRIAL -> fuel.pilotTrial();
            case MAIN_TRIAL -> fuel.mainTrial();
            case LOW_FIRE -> settings.times().lowFireHold();
            case POST_PURGE -> settings.times().postPurge();
            case STANDBY, IGNITION, MODULATION, LOCKOUT -> Duration.ZERO;
        };
    }

    /** Lets a step pass. */
    void step() {
        stepsInPhase++;
    }

    /** Goes on to another phase where it is time to. */
    void advance(Conditions now, FuelSettings fuel) {
        // The limiter opens whether the burner runs or not.
        boolean heeded = phase.isRunning() || phase == Phase.STANDBY && now.trip() == Cause.HIGH_LIMIT;
        if (heeded && now.trip() != Cause.NONE) {
            lockOut(now.trip());
            return;
        }
        switch (phase) {
            case STANDBY -> {
                if (now.wanted() && lasted(settings.times().shortestStandby())) {
                    enter(Phase.PRE_PURGE);
                }
            }
            case PRE_PURGE -> purge(now);
            case IGNITION -> ignite(now);
            case PILOT_TRIAL -> endTrial(now, fuel.pilotTrial(), Phase.MAIN_TRIAL, Cause.NO_PILOT_FLAME);
            case MAIN_TRIAL -> endTrial(now, fuel.mainTrial(), Phase.LOW_FIRE, Cause.NO_MAIN_FLAME);
            case LOW_FIRE, MODULATION -> fire(now);
            case POST_PURGE -> {
                if (lasted(settings.times().postPurge())) {
                    enter(Phase.STANDBY);
                }
            }
            case LOCKOUT -> {
                // Only a person ends it.
            }
        }
    }

    private void purge(Conditions now) {
        if (lasted(AIR_BY) && !now.airProven()) {
            lockOut(Cause.AIR_NOT_PROVEN);
        } else if (lasted(settings.times().prePurge())) {
            enter(Phase.IGNITION);
        }
    }

    private void ignite(Conditions now) {
        if (lasted(LIGHT_OFF_AT_MOST)) {
            lockOut(Cause.NOT_AT_LIGHT_OFF);
        } else if (now.atLightOff() && lasted(LIGHT_OFF_AT_LEAST)) {
            if (now.shortage() == Cause.NONE) {
                enter(Phase.PILOT_TRIAL);
            } else {
                lockOut(now.shortage());
            }
        }
    }

    private void endTrial(Conditions now, Duration length, Phase next, Cause without) {
        if (!lasted(length)) {
            return;
        }
        if (now.flame()) {
            enter(next);
        } else {
            lockOut(without);
        }
    }

    private void fire(Conditions now) {
        stepsWithoutFlame = now.flame() ? 0 : stepsWithoutFlame + 1;
        if (Boiler.STEP
                        .multipliedBy(stepsWithoutFlame)
                        .compareTo(settings.times().flameFailure())
                >= 0) {
            lockOut(now.shortage() == Cause.NONE ? Cause.FLAME_LOST : now.shortage());
        } else if (!now.wanted()) {
            enter(Phase.POST_PURGE);
        } else if (phase == Phase.LOW_FIRE && lasted(settings.times().lowFireHold())) {
            enter(Phase.MODULATION);
        }
    }

    private void lockOut(Cause why) {
        cause = why;
        enter(Phase.LOCKOUT);
    }

    /** Ends a lockout; without effect outside of one. */
    void reset() {
        if (phase == Phase.LOCKOUT) {
            cause = Cause.NONE;
            enter(Phase.STANDBY);
        }
    }

    private void enter(Phase next) {
        phase = next;
        stepsInPhase = 0;
        stepsWithoutFlame = 0;
    }
}
