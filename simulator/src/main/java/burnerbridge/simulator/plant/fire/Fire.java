package burnerbridge.simulator.plant.fire;

/**
 * What the burner itself shows.
 *
 * @param fuel that it burns or would burn
 * @param flame whether one is seen
 * @param flameSignal how strongly, 0 to 100 %
 * @param air the damper
 * @param gas what meters the gas; at 0 while another fuel is burnt
 * @param oil what meters the oil, likewise
 * @param fanCommand speed that the fan was told, in % of its highest
 * @param fanSpeed in revolutions a minute
 * @param fanCurrent in A
 * @param gasPressure before the burner's valves, in mbar
 * @param oilPressure behind the pump, in bar
 * @param airPressure behind the fan, in mbar
 * @param furnacePressure against the boiler room, in Pa; below 0 at rest and at low fire
 * @param power heat of the fuel, in kW
 * @param fuelFlow in m3/h of gas or kg/h of oil
 */
public record Fire(
        Fuel fuel,
        boolean flame,
        double flameSignal,
        Position air,
        Position gas,
        Position oil,
        double fanCommand,
        double fanSpeed,
        double fanCurrent,
        double gasPressure,
        double oilPressure,
        double airPressure,
        double furnacePressure,
        double power,
        double fuelFlow) {

    /** Of what meters the fuel that it burns. */
    public Position metering() {
        return fuel == Fuel.GAS ? gas : oil;
    }

    /** Whether the fan's pressure is there. */
    public boolean airProven() {
        return airPressure > Combustion.AIR_PROVEN;
    }

    public boolean fanRunning() {
        return fanSpeed > 0;
    }
}
