package burnerbridge.simulator.plant.vessel;

import burnerbridge.simulator.value.Lagged;
import burnerbridge.simulator.value.Noise;
import java.time.Duration;
import java.util.Random;

/** Steam for the soil and the sheds: its pressure rises with the fire and falls with what is drawn. */
public final class Steam implements Vessel {
    private static final double ATMOSPHERE = 1.013;
    /** From feed water to saturated steam at a few bar, in kJ/kg (from memory). */
    private static final double EVAPORATION = 2330;

    private static final double LEVEL_PUMP_ON = 47;
    private static final double LEVEL_PUMP_OFF = 55;
    private static final double LEVEL_LEAST = 25;
    /** % of the glass for each kg. */
    private static final double GLASS_A_KILOGRAM = 0.75;

    private final LoadRange range;
    private final double fullPower;
    private final double capacity;
    private final Houses sheds;
    private final Noise levelNoise;
    private final Noise feedNoise;
    private double pressure;
    private double draw;
    private double level = 51;
    private double feedFlow;
    private boolean calling;
    private boolean pumping;
    private boolean fails;

    /**
     * @param fullPower of its burner, in kW
     * @param capacity heat that raises the pressure by 1 bar, in kJ
     * @param period in which what is drawn swings once
     */
    public Steam(LoadRange range, double fullPower, double capacity, Duration period, Random random) {
        if (!(fullPower > 0 && capacity > 0)) {
            throw new IllegalArgumentException(
                    "full power and capacity must be above 0 (were " + fullPower + " kW and " + capacity + " kJ/bar)");
        }
        this.range = range;
        this.fullPower = fullPower;
        this.capacity = capacity;
        this.sheds = new Houses(0.45, 0.34, period, random);
        this.levelNoise = new Noise(random, 0.4, 2);
        this.feedNoise = new Noise(random, 1.2, 60);
        this.pressure = range.startBelow() + 0.05;
    }

    @Override
    public void step(double heat, double dt) {
        draw = sheds.step(dt) * fullPower * Math.max(0, Math.min(1, pressure / 3));
        pressure = Math.max(0, pressure + (heat - draw) * dt / capacity);
        pumping = !fails && (level < LEVEL_PUMP_ON || pumping && level < LEVEL_PUMP_OFF);
        feedFlow = Lagged.towards(feedFlow, pumping ? 1.6 * fullPower / EVAPORATION : 0, dt, 1);
        level = Math.max(0, level + (feedFlow - draw / EVAPORATION) * GLASS_A_KILOGRAM * dt);
        levelNoise.step(dt);
        feedNoise.step(dt);
        calling = range.calls(pressure, calling);
    }

    @Override
    public double controlled() {
        return pressure;
    }

    /** Of saturated steam, by the rule of thumb that it goes with the fourth root of the pressure. */
    @Override
    public double temperature() {
        return 100 * Math.pow((pressure + ATMOSPHERE) / ATMOSPHERE, 0.25);
    }

    @Override
    public boolean callsForHeat() {
        return calling;
    }

    @Override
    public boolean isShortOfWater() {
        return level < LEVEL_LEAST;
    }

    /** Mending it fills the boiler again. */
    @Override
    public void failWater(boolean failing) {
        if (fails && !failing) {
            level = LEVEL_PUMP_ON;
        }
        fails = failing;
    }

    @Override
    public VesselState state() {
        return new VesselState(
                temperature(),
                Double.NaN,
                94 + feedNoise.value(),
                Double.NaN,
                Double.NaN,
                Double.NaN,
                pressure,
                draw / EVAPORATION * 3600,
                level + levelNoise.value(),
                draw,
                pumping,
                calling);
    }
}
