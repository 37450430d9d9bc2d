package burnerbridge.simulator.demo.screen;

import burnerbridge.simulator.plant.BoilerSettings.Medium;
import burnerbridge.simulator.plant.BoilerState;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/**
 * A point of the example site, with the value that the plant itself has for it.
 *
 * @param value as people read it
 */
record PlantRow(String point, Function<BoilerState, String> value) {
    private static final List<PlantRow> HOT_WATER = List.of(
            new PlantRow("phase", s -> s.phase().text()),
            new PlantRow("fault-cause", s -> s.cause().text()),
            new PlantRow("flame", s -> s.fire().flame() ? "on" : "off"),
            number("firing-rate", 1, BoilerState::firingRate),
            number("boiler-temperature", 1, s -> s.vessel().supply()),
            number("return-temperature", 1, s -> s.vessel().back()),
            number("set-point", 1, s -> s.settings().range().setPoint()),
            number("oxygen", 2, s -> s.flueGas().oxygen()),
            number("carbon-monoxide", 0, s -> s.flueGas().carbonMonoxide()),
            number("flue-temperature", 1, s -> s.flueGas().temperature()),
            number("air-position", 1, s -> s.fire().air().actual()),
            number("gas-position", 1, s -> s.fire().gas().actual()),
            number("fan-speed", 0, s -> s.fire().fanSpeed()),
            number("gas-pressure", 1, s -> s.fire().gasPressure()),
            number("furnace-pressure", 1, s -> s.fire().furnacePressure()),
            number("thermal-power", 1, s -> s.fire().power()),
            number("efficiency", 1, s -> s.flueGas().efficiency()),
            number("starts", 0, s -> s.totals().allStarts()),
            number("run-hours", 1, s -> s.totals().allRunHours()));

    private static final List<PlantRow> STEAM = List.of(
            new PlantRow("phase", s -> s.phase().text()),
            new PlantRow("fault-cause", s -> s.cause().text()),
            new PlantRow("fuel", s -> s.fire().fuel().text()),
            new PlantRow("flame", s -> s.fire().flame() ? "on" : "off"),
            number("firing-rate", 1, BoilerState::firingRate),
            number("steam-pressure", 2, s -> s.vessel().steamPressure()),
            number("steam-flow", 0, s -> s.vessel().steamFlow()),
            number("water-level", 1, s -> s.vessel().level()),
            number("oxygen", 2, s -> s.flueGas().oxygen()),
            number("carbon-monoxide", 0, s -> s.flueGas().carbonMonoxide()),
            number("flue-temperature", 1, s -> s.flueGas().temperature()),
            number("gas-position", 1, s -> s.fire().gas().actual()),
            number("oil-position", 1, s -> s.fire().oil().actual()),
            number("air-position", 1, s -> s.fire().air().actual()),
            number("fan-speed", 0, s -> s.fire().fanSpeed()),
            number("thermal-power", 1, s -> s.fire().power()),
            number("efficiency", 1, s -> s.flueGas().efficiency()));

    /** The points of a boiler that a visitor would look at first, in that order. */
    static List<PlantRow> of(BoilerState state) {
        return state.settings().medium() == Medium.STEAM ? STEAM : HOT_WATER;
    }

    /** What a boiler's load control holds, with its unit. */
    static String controlled(BoilerState state) {
        return state.settings().medium() == Medium.STEAM
                ? String.format(Locale.ROOT, "%.2f bar", state.controlled())
                : String.format(Locale.ROOT, "%.1f °C", state.controlled());
    }

    private static PlantRow number(String point, int decimals, ToDoubleFunction<BoilerState> number) {
        String form = "%." + decimals + "f";
        return new PlantRow(point, s -> String.format(Locale.ROOT, form, number.applyAsDouble(s)));
    }
}
