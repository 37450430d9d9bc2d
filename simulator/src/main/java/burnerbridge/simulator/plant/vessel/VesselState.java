package burnerbridge.simulator.plant.vessel;

/**
 * What a boiler shows. What it has no sensor for is {@link Double#NaN}.
 *
 * @param supply temperature of the water or steam that leaves, in °C
 * @param back temperature of the water that comes back to it, in °C
 * @param feed temperature of the feed water, in °C
 * @param outdoor temperature, in °C
 * @param waterPressure in bar
 * @param waterFlow through it, in m3/h
 * @param steamPressure in bar, gauge
 * @param steamFlow that leaves, in kg/h
 * @param level of the water, in % of the glass
 * @param draw heat that the houses take, in kW
 * @param pump whether the pump of its water runs
 * @param callForHeat whether it wants its burner
 */
public record VesselState(
        double supply,
        double back,
        double feed,
        double outdoor,
        double waterPressure,
        double waterFlow,
        double steamPressure,
        double steamFlow,
        double level,
        double draw,
        boolean pump,
        boolean callForHeat) {}
