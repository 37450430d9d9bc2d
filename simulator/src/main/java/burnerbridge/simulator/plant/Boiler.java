package burnerbridge.simulator.plant;

import burnerbridge.simulator.plant.fire.Combustion;
import burnerbridge.simulator.plant.fire.Draught;
import burnerbridge.simulator.plant.fire.Fire;
import burnerbridge.simulator.plant.fire.FlueGas;
import burnerbridge.simulator.plant.fire.Fuel;
import burnerbridge.simulator.plant.fire.FuelSettings;
import burnerbridge.simulator.plant.vessel.HotWater;
import burnerbridge.simulator.plant.vessel.Steam;
import burnerbridge.simulator.plant.vessel.Vessel;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Random;

/**
 * One burner on its boiler, stepped: every {@link #step()} lets {@link #STEP} pass on the boiler's own
 * clock. Two boilers of one seed, the same settings and the same beginning run alike, whatever the real
 * clock does.
 *
 * <p>It is invented: a sequence and figures as burners in general have them. Not safe for use by several
 * threads.
 */
public final class Boiler {
    /** What passes with each step. */
    public static final Duration STEP = Duration.ofMillis(100);

    private static final double SECONDS_A_STEP = 0.1;
    /** Heat that a boiler loses through its shell, in % of that of the fuel. */
    private static final double SHELL_LOSS = 0.4;
    /** From the fuel valve to the first flame. */
    private static final Duration LIGHTING = Duration.ofMillis(1300);

    private final BoilerSettings settings;
    private final Vessel vessel;
    private final Combustion combustion;
    private final Modulation modulation;
    private final Sequence sequence;
    private final Counters counters;
    private final FaultLog faults;
    private Instant at;
    private Fuel burning;
    private Fuel chosen;
    private Mode mode = Mode.AUTOMATIC;
    private boolean released = true;
    private boolean flame;
    private boolean flameFails;
    private boolean limiterOpen;
    private boolean fuelSupplied = true;
    private long steps;
    private int stepsAstray;

    /** @param begins what its clock shows at first */
    public Boiler(BoilerSettings settings, long seed, Instant begins) {
        Random random = new Random(seed);
        this.settings = settings;
        this.vessel = vessel(settings, random);
        this.combustion = new Combustion(settings.fullPower(), settings.flueLag(), random);
        this.modulation = new Modulation(settings);
        this.sequence = new Sequence(settings);
        this.counters = new Counters(settings.before());
        this.at = begins.truncatedTo(ChronoUnit.SECONDS);
        this.faults = new FaultLog(at, settings.before().allStarts(), settings.burns(), random);
        this.burning = settings.burns().get(0);
        this.chosen = burning;
    }

    private static Vessel vessel(BoilerSettings s, Random random) {
        return s.medium() == BoilerSettings.Medium.WATER
                ? new HotWater(s.range(), s.fullPower(), s.heatCapacity(), s.loadPeriod(), random)
                : new Steam(s.range(), s.fullPower(), s.heatCapacity(), s.loadPeriod(), random);
    }

    /** Lets {@link #STEP} pass. */
    public void step() {
        steps++;
        at = at.plus(STEP);
        sequence.step();
        light();
        advance();
        if (sequence.phase() == Phase.MODULATION) {
            modulation.step(vessel.controlled(), SECONDS_A_STEP);
        }
        burn();
    }

    private void light() {
        Phase phase = sequence.phase();
        boolean lit = phase != Phase.PILOT_TRIAL || sequence.lasted(LIGHTING);
        flame = phase.hasFuel() && lit && !flameFails && shortage() == Cause.NONE;
    }

    private void advance() {
        Phase before = sequence.phase();
        double rate = modulation.rate();
        if (before == Phase.STANDBY) {
            burning = chosen;
        }
        sequence.advance(conditions(), fuel());
        if (sequence.phase() != before) {
            entered(before, rate);
        }
    }

    private Sequence.Conditions conditions() {
        boolean wanted = vessel.callsForHeat() && released && mode != Mode.OFF && chosen == burning;
        return new Sequence.Conditions(
                wanted, flame, combustion.fire().airProven(), combustion.isAtLightOff(), shortage(), trip());
    }

    private void entered(Phase before, double rate) {
        switch (sequence.phase()) {
            case PILOT_TRIAL -> counters.start(burning);
            case LOW_FIRE -> modulation.begin(fuel().lowFire());
            case LOCKOUT -> {
                counters.lockout();
                faults.add(new FaultRecord(
                        sequence.cause(),
                        at.truncatedTo(ChronoUnit.SECONDS),
                        before,
                        rate,
                        burning,
                        counters.totals().allStarts()));
            }
            default -> {
                // Nothing is counted.
            }
        }
        flame = flame && sequence.phase().hasFuel();
        if (!sequence.phase().isFiring()) {
            modulation.end();
        }
    }

    private void burn() {
        combustion.step(
                burning,
                fuel().curve(),
                draught(),
                flame,
                modulation.rate(),
                fuelSupplied,
                vessel.temperature(),
                SECONDS_A_STEP);
        Fire fire = combustion.fire();
        FlueGas gas = combustion.flueGas();
        double given = fire.power() * Math.max(0, gas.efficiency() - SHELL_LOSS) / 100;
        vessel.step(given, SECONDS_A_STEP);
        counters.step(burning, sequence.phase().isFiring(), fire.fuelFlow(), given, SECONDS_A_STEP);
        boolean astray = Math.abs(fire.air().deviation()) > settings.limits().deviation();
        stepsAstray = astray && sequence.phase().isFiring() ? stepsAstray + 1 : 0;
    }

    private Draught draught() {
        return switch (sequence.phase()) {
            case PRE_PURGE, POST_PURGE -> new Draught.Purge();
            case IGNITION, PILOT_TRIAL, MAIN_TRIAL -> new Draught.LightOff();
            case LOW_FIRE, MODULATION -> new Draught.Firing(modulation.rate());
            case STANDBY, LOCKOUT -> new Draught.Rest();
        };
    }

    private Cause shortage() {
        Fire fire = combustion.fire();
        double least = fuel().lowPressure();
        if (burning == Fuel.GAS) {
            return fire.gasPressure() < least ? Cause.LOW_GAS_PRESSURE : Cause.NONE;
        }
        return fire.oilPressure() < least ? Cause.LOW_OIL_PRESSURE : Cause.NONE;
    }

    /** Three seconds off its curve are too long for a damper. */
    private Cause trip() {
        if (limiterOpen || vessel.controlled() > settings.range().highLimit()) {
            return Cause.HIGH_LIMIT;
        }
        if (vessel.isShortOfWater()) {
            return Cause.LOW_WATER;
        }
        if (sequence.phase().hasFuel() && !combustion.fire().airProven()) {
            return Cause.AIR_NOT_PROVEN;
        }
        return stepsAstray > 30 ? Cause.DAMPER_ASTRAY : Cause.NONE;
    }

    private FuelSettings fuel() {
        return settings.of(burning);
    }

    /** The flame goes out, or does not light, until {@link #resetAtTheBurner()}. */
    public void failFlame() {
        flameFails = true;
    }

    /** The limiter of temperature or pressure opens, until {@link #resetAtTheBurner()}. */
    public void openLimiter() {
        limiterOpen = true;
    }

    /** Somebody shuts the fuel's cock before the burner. */
    public void shutFuel() {
        fuelSupplied = false;
    }

    /** Somebody opens it again. */
    public void openFuel() {
        fuelSupplied = true;
    }

    /** The air damper stays where it is until {@link #resetAtTheBurner()}. */
    public void stickDamper() {
        combustion.stickDamper(true);
    }

    /** The fan comes to rest until {@link #resetAtTheBurner()}. */
    public void stallFan() {
        combustion.stallFan(true);
    }

    /** The pump of its water fails until {@link #resetAtTheBurner()}. */
    public void failWater() {
        vessel.failWater(true);
    }

    /** Whoever is above the burner lets it run, or no longer does. */
    public void release(boolean given) {
        released = given;
    }

    /** Whoever is above the burner allows no more load than this, in % of full power. */
    public void limitLoad(double percent) {
        modulation.limit(percent);
    }

    /** Somebody turns the switch that says who decides. */
    public void turnTo(Mode other) {
        mode = other;
    }

    /**
     * Somebody turns the fuel's switch: a burner that fires ends its operation and starts anew with it.
     *
     * @throws IllegalArgumentException where the burner has not that fuel
     */
    public void choose(Fuel fuel) {
        settings.of(fuel);
        chosen = fuel;
    }

    /** Somebody who stands at the burner has mended it and resets it; without effect outside lockout. */
    public void resetAtTheBurner() {
        if (sequence.phase() == Phase.LOCKOUT) {
            flameFails = false;
            limiterOpen = false;
            combustion.stickDamper(false);
            combustion.stallFan(false);
            vessel.failWater(false);
            stepsAstray = 0;
            sequence.reset();
        }
    }

    /** What the boiler shows now. */
    public BoilerState state() {
        return new BoilerState(
                at,
                sequence.phase(),
                sequence.inPhase(),
                sequence.length(fuel()),
                sequence.cause(),
                mode,
                released,
                chosen,
                modulation.rate(),
                modulation.demand(),
                modulation.limit(),
                vessel.controlled(),
                combustion.fire(),
                combustion.flueGas(),
                vessel.state(),
                counters.totals(),
                faults.slots(),
                faults.newest(),
                steps,
                settings);
    }
}
