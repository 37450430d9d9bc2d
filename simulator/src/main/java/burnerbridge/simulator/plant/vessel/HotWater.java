package burnerbridge.simulator.plant.vessel;

import burnerbridge.simulator.value.Lagged;
import burnerbridge.simulator.value.Noise;
import java.time.Duration;
import java.util.Random;

/** Water that circulates through the houses: warmed by the burner, cooled by them. */
public final class HotWater implements Vessel {
    /** Heat that a m3 takes up for each K, in kWh. */
    private static final double KILOWATT_HOURS_A_KELVIN = 1.163;

    private final LoadRange range;
    private final double fullPower;
    private final double heatCapacity;
    private final double fullFlow;
    private final Houses houses;
    private final Noise pressureNoise;
    private double temperature;
    private double draw;
    private double flow;
    private boolean calling;
    private boolean fails;

    /**
     * @param fullPower of its burner, in kW
     * @param heatCapacity of the boiler and its water, in kJ/K
     * @param period in which what the houses draw swings once
     */
    public HotWater(LoadRange range, double fullPower, double heatCapacity, Duration period, Random random) {
        if (!(fullPower > 0 && heatCapacity > 0)) {
            throw new IllegalArgumentException("full power and heat capacity must be above 0 (were " + fullPower
                    + " kW and " + heatCapacity + " kJ/K)");
        }
        this.range = range;
        this.fullPower = fullPower;
        this.heatCapacity = heatCapacity;
        this.fullFlow = fullPower / (KILOWATT_HOURS_A_KELVIN * 22);
        this.houses = new Houses(0.32, 0.30, period, random);
        this.pressureNoise = new Noise(random, 0.02, 20);
        this.temperature = range.startBelow() + 0.6;
        this.flow = fullFlow;
    }

    @Override
    public void step(double heat, double dt) {
        // A cool boiler gives less to the houses than a warm one, and nothing without its pump.
        double warmth = Math.max(0, Math.min(1, (temperature - 30) / 40));
        draw = houses.step(dt) * fullPower * warmth * flow / fullFlow;
        temperature += (heat - draw) * dt / heatCapacity;
        flow = Lagged.towards(flow, fails ? 0 : fullFlow, dt, 2);
        pressureNoise.step(dt);
        calling = range.calls(temperature, calling);
    }

    @Override
    public double controlled() {
        return temperature;
    }

    @Override
    public double temperature() {
        return temperature;
    }

    @Override
    public boolean callsForHeat() {
        return calling;
    }

    @Override
    public boolean isShortOfWater() {
        return flow < 0.25 * fullFlow;
    }

    @Override
    public void failWater(boolean failing) {
        fails = failing;
    }

    @Override
    public VesselState state() {
        double spread = flow > 0.1 ? draw / (flow * KILOWATT_HOURS_A_KELVIN) : 0;
        return new VesselState(
                temperature,
                temperature - spread,
                Double.NaN,
                houses.outdoor(),
                1.8 + 0.008 * (temperature - 70) + pressureNoise.value(),
                flow,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                draw,
                !fails,
                calling);
    }
}
