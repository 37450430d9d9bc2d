package burnerbridge.simulator.plant.fire;

/**
 * What leaves the boiler; the shares are of dry flue gas.
 *
 * @param oxygen in %
 * @param carbonMonoxide in ppm
 * @param carbonDioxide in %
 * @param nitrogenOxides in ppm
 * @param temperature where it leaves the boiler, in °C
 * @param airTemperature of the combustion air, in °C
 * @param loss heat that leaves with it, in % of the heat of the fuel, net; 0 without a main flame
 */
public record FlueGas(
        double oxygen,
        double carbonMonoxide,
        double carbonDioxide,
        double nitrogenOxides,
        double temperature,
        double airTemperature,
        double loss) {

    /** What does not leave with the flue gas, in %, net; 0 without a main flame. */
    public double efficiency() {
        return loss > 0 ? 100 - loss : 0;
    }
}
