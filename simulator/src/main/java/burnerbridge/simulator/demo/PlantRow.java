package burnerbridge.simulator.demo;

import burnerbridge.simulator.plant.BurnerState;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;

/**
 * A point of the example site, with the value that the plant itself has for it.
 *
 * @param value as people read it, in the words and with the decimals that the bridge publishes
 */
record PlantRow(String point, Function<BurnerState, String> value) {

    /** The points of a boiler of the example site, in the order of its point list. */
    static List<PlantRow> hotWater() {
        return List.of(
                new PlantRow("phase", s -> s.phase().text()),
                new PlantRow("fault-cause", s -> s.cause().text()),
                bit("call-for-heat", BurnerState::callForHeat),
                bit("pilot-valve", BurnerState::pilotValve),
                bit("main-valve", BurnerState::mainValve),
                bit("flame-present", BurnerState::flamePresent),
                bit("lockout", BurnerState::lockout),
                number("firing-rate", 1, BurnerState::firingRate),
                number("boiler-temperature", 1, BurnerState::waterTemperature),
                number("flue-temperature", 1, BurnerState::flueTemperature),
                number("oxygen", 2, BurnerState::oxygen),
                number("fan-speed", 0, BurnerState::fanSpeed),
                number("gas-pressure", 1, BurnerState::gasPressureMillibar),
                number("furnace-pressure", 1, BurnerState::furnacePressurePascal),
                number("air-actuator", 1, BurnerState::airActuator),
                number("fuel-actuator", 1, BurnerState::fuelActuator),
                number("flame-signal", 1, BurnerState::flameSignal),
                number("thermal-power", 1, BurnerState::thermalPower),
                number("gas-flow", 1, BurnerState::gasFlow),
                number("starts", 0, BurnerState::starts),
                number("run-hours", 0, s -> Math.floor(s.runHours())));
    }

    private static PlantRow bit(String point, Predicate<BurnerState> bit) {
        return new PlantRow(point, s -> bit.test(s) ? "on" : "off");
    }

    private static PlantRow number(String point, int decimals, ToDoubleFunction<BurnerState> number) {
        String form = "%." + decimals + "f";
        return new PlantRow(point, s -> String.format(Locale.ROOT, form, number.applyAsDouble(s)));
    }
}
