package burnerbridge.simulator.plant.fire;

import burnerbridge.simulator.value.Lagged;
import burnerbridge.simulator.value.Noise;
import java.time.Duration;
import java.util.Random;

/**
 * Air, fuel and flue gas. The figures are those of burners of middling size in general; none is taken from
 * a maker's sheet.
 */
public final class Combustion {
    static final double AIR_OXYGEN = 20.9;
    /** In mbar. */
    static final double AIR_PROVEN = 3;

    private static final double FULL_SPEED = 2900;
    private static final double SPEED_A_SECOND = 700;
    private static final FiringCurve.Point LIGHT_OFF = new FiringCurve.Point(0, 15, 22, 52);
    private static final double GAS_AT_REST = 48;
    private static final double OIL_WHEN_PUMPED = 21;
    private static final double OXYGEN_LAG = 1.5;
    private static final double CLOSE_ENOUGH = 1;

    private final double fullPower;
    private final double flueLag;
    private final Actuator air = new Actuator();
    private final Actuator gas = new Actuator();
    private final Actuator oil = new Actuator();
    private final Noise oxygenNoise;
    private final Noise furnaceNoise;
    private final Noise pressureNoise;
    private final Noise flameNoise;
    private final Noise roomNoise;
    private FiringCurve.Point told = new FiringCurve.Point(0, 0, 0, 0);
    private Fuel fuel = Fuel.GAS;
    private double fanSpeed;
    private boolean fanStalls;
    private double gasPressure = GAS_AT_REST;
    private double oilPressure;
    private double furnacePressure = -4;
    private double oxygen = AIR_OXYGEN;
    private double monoxide;
    private double nitrogenOxides;
    private double flueTemperature = 52;
    private double airTemperature = 22;
    private double flameSignal;
    private double power;
    private boolean flame;

    /**
     * @param fullPower heat of the fuel at full load, in kW
     * @param flueLag time constant of the flue gas temperature
     */
    public Combustion(double fullPower, Duration flueLag, Random random) {
        this.fullPower = fullPower;
        this.flueLag = flueLag.toMillis() / 1000.0;
        this.oxygenNoise = new Noise(random, 0.07, 3);
        this.furnaceNoise = new Noise(random, 0.4, 1);
        this.pressureNoise = new Noise(random, 0.15, 2);
        this.flameNoise = new Noise(random, 1.5, 2);
        this.roomNoise = new Noise(random, 0.8, 120);
    }

    /** The damper stays where it is. */
    public void stickDamper(boolean stuck) {
        air.stick(stuck);
    }

    /** The fan comes to rest whatever it is told. */
    public void stallFan(boolean stalls) {
        fanStalls = stalls;
    }

    /**
     * One step.
     *
     * @param burning whether a flame is seen
     * @param rate in % of full power; 0 without a main flame
     * @param supplied whether the fuel's cock is open
     * @param medium temperature of the water or steam, in °C
     */
    public void step(
            Fuel chosen,
            FiringCurve curve,
            Draught draught,
            boolean burning,
            double rate,
            boolean supplied,
            double medium,
            double dt) {
        fuel = chosen;
        flame = burning;
        power = burning ? fullPower * rate / 100 : 0;
        told = target(curve, draught);
        air.towards(told.air(), dt);
        gas.towards(fuel == Fuel.GAS ? told.fuel() : 0, dt);
        oil.towards(fuel == Fuel.OIL ? told.fuel() : 0, dt);
        double speed = fanStalls ? 0 : FULL_SPEED * told.fan() / 100;
        fanSpeed = Lagged.ramped(fanSpeed, speed, dt, SPEED_A_SECOND);
        press(rate, supplied, dt);
        breathe(rate, dt);
        warm(rate, medium, dt);
        double seen = (rate > 0 ? 84 : 52) + flameNoise.step(dt);
        flameSignal = flame ? Math.max(0, Math.min(100, Lagged.towards(flameSignal, seen, dt, 0.4))) : 0;
    }

    private static FiringCurve.Point target(FiringCurve curve, Draught draught) {
        if (draught instanceof Draught.Firing firing) {
            return curve.at(firing.load());
        }
        if (draught instanceof Draught.Purge) {
            return new FiringCurve.Point(0, 0, 90, 100);
        }
        return draught instanceof Draught.LightOff ? LIGHT_OFF : new FiringCurve.Point(0, 0, 0, 0);
    }

    private void press(double rate, boolean supplied, double dt) {
        double share = fanSpeed / FULL_SPEED;
        furnacePressure = -4.5 + 22 * share * share + furnaceNoise.step(dt);
        double wander = pressureNoise.step(dt);
        boolean burnsGas = fuel == Fuel.GAS && flame;
        gasPressure = Lagged.towards(
                gasPressure, (supplied ? GAS_AT_REST - (burnsGas ? 0.07 * rate : 0) : 0) + wander, dt, 1);
        boolean pumped = fuel == Fuel.OIL && supplied && share > 0.3;
        oilPressure = Math.max(0, Lagged.towards(oilPressure, pumped ? OIL_WHEN_PUMPED + wander : 0, dt, 0.8));
    }

    private void breathe(double rate, double dt) {
        double wander = oxygenNoise.step(dt);
        boolean main = flame && rate > 0;
        double base = fuel == Fuel.GAS ? 4.9 - 0.017 * rate : 5.4 - 0.016 * rate;
        // A damper that lags behind its command gives too much air or too little.
        double leftOver = 0.06 * air.position().deviation();
        double target = main ? Math.max(0.2, base + leftOver + wander) : AIR_OXYGEN;
        oxygen = Math.min(AIR_OXYGEN, Lagged.towards(oxygen, target, dt, OXYGEN_LAG));
        // Carbon monoxide rises steeply where air is short, nitrogen oxides with the heat of the flame.
        double short0 = fuel == Fuel.GAS ? 6 + 40 * Math.exp(-(target - 1.5)) : 9 + 55 * Math.exp(-(target - 1.5));
        monoxide = Lagged.towards(monoxide, main ? short0 : 0, dt, OXYGEN_LAG);
        double hot = fuel == Fuel.GAS ? 38 + 0.25 * rate : 82 + 0.4 * rate;
        nitrogenOxides = Lagged.towards(nitrogenOxides, main ? hot : 0, dt, OXYGEN_LAG);
    }

    private void warm(double rate, double medium, double dt) {
        airTemperature = 22 + roomNoise.step(dt);
        boolean main = flame && rate > 0;
        double target = main ? medium + (fuel == Fuel.GAS ? 14 : 22) + 0.8 * rate : medium - 24;
        flueTemperature = Lagged.towards(flueTemperature, target, dt, flame ? flueLag : 2 * flueLag);
    }

    /** Whether everything stands where a flame lights best. */
    public boolean isAtLightOff() {
        double speed = fanSpeed / FULL_SPEED * 100;
        double fuelPosition = (fuel == Fuel.GAS ? gas : oil).position().actual();
        return Math.abs(air.position().actual() - LIGHT_OFF.air()) < CLOSE_ENOUGH
                && Math.abs(fuelPosition - LIGHT_OFF.fuel()) < CLOSE_ENOUGH
                && Math.abs(speed - LIGHT_OFF.fan()) < CLOSE_ENOUGH;
    }

    /** What the burner shows now. */
    public Fire fire() {
        double share = fanSpeed / FULL_SPEED;
        return new Fire(
                fuel,
                flame,
                flameSignal,
                air.position(),
                gas.position(),
                oil.position(),
                told.fan(),
                fanSpeed,
                7.4 * share * share * share + (share > 0 ? 1.1 : 0),
                Math.max(0, gasPressure),
                oilPressure,
                28 * share * share,
                furnacePressure,
                power,
                power / fuel.kilowattHours());
    }

    /** What leaves the boiler now. */
    public FlueGas flueGas() {
        double loss =
                power > 0 && oxygen < 15 ? fuel.flueGasLoss(oxygen, Math.max(0, flueTemperature - airTemperature)) : 0;
        return new FlueGas(
                oxygen, monoxide, fuel.carbonDioxide(oxygen), nitrogenOxides, flueTemperature, airTemperature, loss);
    }
}
