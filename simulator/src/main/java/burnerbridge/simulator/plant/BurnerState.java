package burnerbridge.simulator.plant;

import java.time.Duration;

/**
 * Everything that a burner shows at one moment. Temperatures in °C, pressures in the unit that the
 * component's name ends with, shares in %.
 *
 * @param phase where the sequence stands
 * @param inPhase how long it has stood there
 * @param phaseLength how long the phase takes; zero where it has no set end
 * @param waterTemperature of the boiler's flow
 * @param flueTemperature of the flue gas behind the boiler
 * @param firingRate in % of full power; 0 without a main flame
 * @param oxygen of the dry flue gas; that of air without a flame
 * @param fanSpeed in revolutions a minute
 * @param gasPressureMillibar before the burner's valves
 * @param furnacePressurePascal against the boiler room; below 0 at rest and at low fire
 * @param airActuator angle of the air damper, in degrees
 * @param fuelActuator angle of the gas valve, in degrees
 * @param flameSignal 0 to 100 %
 * @param thermalPower heat of the gas, in kW
 * @param gasFlow in m3/h
 * @param starts since the burner was built
 * @param runHours with a proven main flame
 * @param setpoint that the water is modulated to
 * @param callForHeat whether the boiler wants its burner
 * @param airProven whether the fan's air pressure is there
 * @param pilotValve whether it is open
 * @param mainValve whether they are open
 * @param flamePresent whether a flame is seen
 * @param cause why it locked out; {@link Cause#NONE} outside lockout
 */
public record BurnerState(
        Phase phase,
        Duration inPhase,
        Duration phaseLength,
        double waterTemperature,
        double flueTemperature,
        double firingRate,
        double oxygen,
        double fanSpeed,
        double gasPressureMillibar,
        double furnacePressurePascal,
        double airActuator,
        double fuelActuator,
        double flameSignal,
        double thermalPower,
        double gasFlow,
        int starts,
        double runHours,
        double setpoint,
        boolean callForHeat,
        boolean airProven,
        boolean pilotValve,
        boolean mainValve,
        boolean flamePresent,
        Cause cause) {

    public boolean lockout() {
        return phase == Phase.LOCKOUT;
    }

    public boolean fanRunning() {
        return fanSpeed > 0;
    }
}
