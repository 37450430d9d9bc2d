package burnerbridge.daemon.plant;

import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.simulator.plant.FaultRecord;
import burnerbridge.simulator.plant.fire.FiringCurve;
import burnerbridge.simulator.plant.fire.Fuel;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;

/**
 * What each point of the example site must say of a boiler, written by hand and with nothing of the point
 * lists or register tables: a {@link Boolean}, a {@link String}, an {@link Instant}, a {@link Double}, or
 * {@link #NO_SENSOR} and {@link #NOT_APPLICABLE}.
 */
final class HandTable {
    static final String NO_SENSOR = "no sensor";
    static final String NOT_APPLICABLE = "not applicable";

    /** How fine each number is, in its unit; where a type is not named, for all of them. */
    private static final String STEPS = """
            firing-rate hot-water 0.1 hot-water-old 0.5 steam 0.01
            load-demand hot-water 0.1 hot-water-old 0.5 steam 0.01
            load-limit 0.1
            boiler-temperature hot-water 0.1 hot-water-old float
            return-temperature hot-water 0.1 hot-water-old float
            outdoor-temperature 0.1
            oxygen hot-water 0.01 hot-water-old 0.1 steam 0.01
            flue-temperature hot-water 0.1 hot-water-old 1 steam 0.1
            combustion-air 0.1
            set-point hot-water 0.1 hot-water-old float steam 0.01
            start-below hot-water 0.1 hot-water-old float steam 0.01
            stop-above hot-water 0.1 hot-water-old float steam 0.01
            high-limit hot-water 0.1 hot-water-old float steam 0.01
            carbon-monoxide 1
            carbon-dioxide 0.01
            nitrogen-oxides 1
            efficiency 0.1
            flame-signal hot-water 0.1 hot-water-old 0.00625 steam 0.1
            air-position hot-water 0.1 hot-water-old 1 steam 0.01
            air-command hot-water 0.1 hot-water-old 1 steam 0.01
            gas-position hot-water 0.1 hot-water-old 1 steam 0.01
            gas-command hot-water 0.1 hot-water-old 1
            oil-position 0.01
            fan-command 0.1
            fan-speed hot-water 1 hot-water-old 10 steam 1
            fan-current 0.01
            gas-pressure hot-water 0.1 hot-water-old float steam 0.1
            oil-pressure 0.01
            air-pressure 0.01
            furnace-pressure hot-water 0.1 hot-water-old float steam 1
            water-pressure 0.01
            water-flow 0.1
            water-level 0.1
            steam-pressure float
            steam-flow 0.1
            steam-temperature 0.1
            feed-water 0.1
            thermal-power hot-water float hot-water-old 1 steam float
            gas-flow hot-water float hot-water-old 0.01 steam float
            oil-flow float
            run-hours 0.1
            gas-run-hours 0.016667
            oil-run-hours 0.016667
            gas-used hot-water 0.1 hot-water-old 0.1 steam exact
            oil-used 0.1
            heat-delivered hot-water 1 hot-water-old 1 steam 1
            powered-hours 1
            load-gain hot-water 0.1 hot-water-old float
            least-air-pressure 0.01
            most-deviation 0.1
            least-oxygen 0.01
            least-level 0.1
            low-fire hot-water 0.1 hot-water-old 1
            gas-low-fire 0.1
            oil-low-fire 0.1
            least-gas-pressure hot-water 0.1 hot-water-old 1 steam 0.1
            least-oil-pressure 0.1
            """;

    private static final Map<String, Function<BoilerState, Object>> VALUES = values();

    private HandTable() {}

    /** Of a point of a type of controller. */
    static Object expected(String type, String point, BoilerState state) {
        if (type.equals("steam") && point.equals("heat-delivered")) {
            // In Wh; the others have kWh.
            return state.totals().heat() * 1000;
        }
        if (type.equals("hot-water") && point.equals("flame-signal")) {
            // In µA: 30 of them are 100 %.
            return state.fire().flameSignal() * 0.3;
        }
        if (type.equals("hot-water-old") && point.equals("outdoor-temperature")) {
            return NO_SENSOR;
        }
        if (type.equals("hot-water") && point.equals("nitrogen-oxides")) {
            return NO_SENSOR;
        }
        Function<BoilerState, Object> value = VALUES.get(point);
        if (value == null) {
            throw new AssertionError("nobody has written down what " + type + "." + point + " is");
        }
        return value.apply(state);
    }

    /** How far a number may be from the plant's: half a step, or what a float cannot tell. */
    static double tolerance(String type, String point, double value) {
        List<String> words = STEPS.lines()
                .map(line -> List.of(line.split(" ")))
                .filter(line -> line.get(0).equals(point))
                .findFirst()
                .orElse(List.of(point, "0"));
        int at = words.indexOf(type);
        String step = words.size() == 2 ? words.get(1) : at < 0 ? "0" : words.get(at + 1);
        return switch (step) {
            case "float" -> Math.abs(value) * 1e-6 + 1e-9;
            case "exact" -> Math.abs(value) * 1e-12;
            // The last digit shown may be rounded once more.
            default -> Double.parseDouble(step) / 2 + 1e-9 + (step.equals("0.016667") ? 0.01 : 0);
        };
    }

    private static Map<String, Function<BoilerState, Object>> values() {
        Map<String, Function<BoilerState, Object>> v = new HashMap<>();
        sequence(v);
        outputs(v);
        measured(v);
        counted(v);
        set(v);
        curves(v);
        faults(v);
        v.put("model", s -> s.settings().identity().model());
        v.put("serial-number", s -> {
            String serial = s.settings().identity().serialNumber();
            // The old controller has a number, and numbers have no leading zeros.
            return serial.startsWith("0") ? (Object) Double.valueOf(serial) : serial;
        });
        v.put("firmware", s -> {
            String version = s.settings().identity().firmware();
            return version.startsWith("3") ? (Object) version : Double.valueOf(version);
        });
        v.put("parameter-set", s -> (double) s.settings().identity().parameterSet());
        v.put("clock", BoilerState::at);
        v.put("makers-own", s -> NOT_APPLICABLE);
        return v;
    }

    private static void sequence(Map<String, Function<BoilerState, Object>> v) {
        v.put("phase", s -> s.phase().text());
        v.put("fault-cause", s -> s.cause().text());
        v.put("fuel", s -> s.fire().fuel().text());
        v.put("fuel-chosen", s -> s.chosen().text());
        v.put("operating-mode", s -> s.mode().text());
        v.put("phase-time", s -> (double) s.inPhase().toSeconds());
        v.put(
                "phase-left",
                s -> s.phaseLength().isZero()
                        ? 0.0
                        : (double) s.phaseLength().minus(s.inPhase()).toSeconds());
        v.put("firing-rate", BoilerState::firingRate);
        v.put("load-demand", BoilerState::loadDemand);
        v.put("load-limit", BoilerState::loadLimit);
        v.put("flame", s -> s.fire().flame());
        v.put("lockout", BoilerState::lockout);
        v.put("available", BoilerState::available);
        v.put("running", s -> s.phase().isRunning());
        v.put("released", BoilerState::released);
        v.put("remote-enable", word(BoilerState::released, "released", "held"));
        v.put("call-for-heat", s -> s.vessel().callForHeat());
        v.put("newest-fault", s -> s.newestFault() + 1.0);
        v.put(
                "alive",
                s -> s.settings().identity().model().equals("QG-OLD HW")
                        ? (Object) (double) (s.beats() / 10 % 1000)
                        : s.beats() / 10 % 2 == 1);
    }

    private static void outputs(Map<String, Function<BoilerState, Object>> v) {
        v.put("pilot-valve", word(BoilerState::pilotValve, "open", "shut"));
        v.put("main-valve", word(BoilerState::mainValve, "open", "shut"));
        v.put("fan-running", word(s -> s.fire().fanSpeed() > 0, "running", "off"));
        v.put("igniter", word(BoilerState::igniter, "on", "off"));
        v.put("pump", word(s -> s.vessel().pump(), "running", "off"));
        v.put("feed-pump", word(s -> s.vessel().pump(), "running", "off"));
        v.put("air-proven", s -> s.fire().airPressure() > 3);
        v.put(
                "gas-proven",
                s -> s.fire().gasPressure() >= s.settings().of(Fuel.GAS).lowPressure());
        v.put("flue-warning", BoilerState::flueTooHot);
        v.put("oxygen-warning", BoilerState::oxygenLow);
    }

    private static void measured(Map<String, Function<BoilerState, Object>> v) {
        v.put("boiler-temperature", s -> s.vessel().supply());
        v.put("steam-temperature", s -> s.vessel().supply());
        v.put("return-temperature", s -> s.vessel().back());
        v.put("outdoor-temperature", s -> s.vessel().outdoor());
        v.put("feed-water", s -> s.vessel().feed());
        v.put("water-pressure", s -> s.vessel().waterPressure());
        v.put("water-flow", s -> s.vessel().waterFlow());
        v.put("water-level", s -> s.vessel().level());
        v.put("steam-pressure", s -> s.vessel().steamPressure());
        v.put("steam-flow", s -> s.vessel().steamFlow());
        v.put("oxygen", s -> s.flueGas().oxygen());
        v.put("carbon-monoxide", s -> s.flueGas().carbonMonoxide());
        v.put("carbon-dioxide", s -> s.flueGas().carbonDioxide());
        v.put("nitrogen-oxides", s -> s.flueGas().nitrogenOxides());
        v.put("flue-temperature", s -> s.flueGas().temperature());
        v.put("combustion-air", s -> s.flueGas().airTemperature());
        v.put("efficiency", s -> s.phase().isFiring() ? (Object) s.flueGas().efficiency() : NOT_APPLICABLE);
        v.put("flame-signal", s -> s.fire().flameSignal());
        v.put("air-position", s -> s.fire().air().actual());
        v.put("air-command", s -> s.fire().air().commanded());
        v.put("gas-position", s -> s.fire().gas().actual());
        v.put("gas-command", s -> s.fire().gas().commanded());
        v.put("oil-position", s -> s.fire().oil().actual());
        v.put("fan-command", s -> s.fire().fanCommand());
        v.put("fan-speed", s -> s.fire().fanSpeed());
        v.put("fan-current", s -> s.fire().fanCurrent());
        v.put("gas-pressure", s -> s.fire().gasPressure());
        v.put("oil-pressure", s -> burns(s, Fuel.OIL) ? (Object) s.fire().oilPressure() : NOT_APPLICABLE);
        v.put("air-pressure", s -> s.fire().airPressure());
        v.put("furnace-pressure", s -> s.fire().furnacePressure());
        v.put("thermal-power", s -> s.fire().power());
        v.put("gas-flow", s -> burns(s, Fuel.GAS) ? (Object) s.fire().fuelFlow() : NOT_APPLICABLE);
        v.put("oil-flow", s -> burns(s, Fuel.OIL) ? (Object) s.fire().fuelFlow() : NOT_APPLICABLE);
        v.put("gas-flow-decimals", s -> 2.0);
    }

    private static void counted(Map<String, Function<BoilerState, Object>> v) {
        v.put("starts", s -> (double) s.totals().allStarts());
        v.put("run-hours", s -> s.totals().allRunHours());
        v.put("lockouts", s -> (double) s.totals().lockouts());
        v.put("heat-delivered", s -> s.totals().heat());
        v.put("powered-hours", s -> s.totals().poweredHours());
        v.put("gas-starts", s -> s.totals().starts().getOrDefault(Fuel.GAS, -1L).doubleValue());
        v.put("oil-starts", s -> s.totals().starts().getOrDefault(Fuel.OIL, -1L).doubleValue());
        v.put("gas-run-hours", s -> s.totals().runHours().getOrDefault(Fuel.GAS, -1.0));
        v.put("oil-run-hours", s -> s.totals().runHours().getOrDefault(Fuel.OIL, -1.0));
        v.put("gas-used", s -> s.totals().fuelUsed().getOrDefault(Fuel.GAS, -1.0));
        v.put("oil-used", s -> s.totals().fuelUsed().getOrDefault(Fuel.OIL, -1.0));
    }

    private static void set(Map<String, Function<BoilerState, Object>> v) {
        v.put("set-point", s -> s.settings().range().setPoint());
        v.put("start-below", s -> s.settings().range().startBelow());
        v.put("stop-above", s -> s.settings().range().stopAbove());
        v.put("high-limit", s -> s.settings().range().highLimit());
        v.put("load-gain", s -> s.settings().load().gain());
        v.put("load-integral", s -> seconds(s.settings().load().integral()));
        v.put("shortest-standby", s -> seconds(s.settings().times().shortestStandby()));
        v.put("pre-purge-time", s -> seconds(s.settings().times().prePurge()));
        v.put("low-fire-hold", s -> seconds(s.settings().times().lowFireHold()));
        v.put("post-purge-time", s -> seconds(s.settings().times().postPurge()));
        v.put("flame-failure-time", s -> seconds(s.settings().times().flameFailure()));
        v.put("least-air-pressure", s -> s.settings().limits().airPressure());
        v.put("most-deviation", s -> s.settings().limits().deviation());
        v.put("most-flue-temperature", s -> s.settings().limits().flueTemperature());
        v.put("least-oxygen", s -> s.settings().limits().oxygen());
        v.put("least-level", s -> s.settings().limits().waterLevel());
        v.put("pilot-trial-time", s -> seconds(s.settings().of(Fuel.GAS).pilotTrial()));
        v.put("main-trial-time", s -> seconds(s.settings().of(Fuel.GAS).mainTrial()));
        v.put("low-fire", s -> s.settings().of(Fuel.GAS).lowFire());
        for (Fuel fuel : Fuel.values()) {
            v.put(fuel.text() + "-low-fire", s -> s.settings().of(fuel).lowFire());
            v.put(
                    fuel.text() + "-pilot-trial-time",
                    s -> seconds(s.settings().of(fuel).pilotTrial()));
            v.put(
                    fuel.text() + "-main-trial-time",
                    s -> seconds(s.settings().of(fuel).mainTrial()));
            v.put(
                    "least-" + fuel.text() + "-pressure",
                    s -> s.settings().of(fuel).lowPressure());
        }
    }

    private static void curves(Map<String, Function<BoilerState, Object>> v) {
        for (int i = 1; i <= 5; i++) {
            curvePoint(v, "curve-" + i, "gas", Fuel.GAS, i);
            curvePoint(v, "gas-curve-" + i, "gas", Fuel.GAS, i);
            curvePoint(v, "oil-curve-" + i, "oil", Fuel.OIL, i);
        }
    }

    private static void curvePoint(
            Map<String, Function<BoilerState, Object>> v, String name, String meter, Fuel fuel, int number) {
        Function<BoilerState, FiringCurve.Point> point =
                s -> s.settings().of(fuel).curve().points().get(number - 1);
        v.put(name + "-load", s -> point.apply(s).load());
        v.put(name + "-" + meter, s -> point.apply(s).fuel());
        v.put(name + "-air", s -> point.apply(s).air());
        v.put(name + "-fan", s -> point.apply(s).fan());
    }

    private static void faults(Map<String, Function<BoilerState, Object>> v) {
        for (int i = 1; i <= 8; i++) {
            int number = i;
            fault(v, "fault-" + i, s -> {
                int newest = s.newestFault() - (number - 1);
                return s.faults().get(newest < 0 ? newest + 8 : newest);
            });
            fault(v, "slot-" + i, s -> s.faults().get(number - 1));
        }
    }

    private static void fault(
            Map<String, Function<BoilerState, Object>> v, String name, Function<BoilerState, FaultRecord> record) {
        v.put(name + "-cause", s -> record.apply(s).cause().text());
        v.put(name + "-fuel", s -> record.apply(s).fuel().text());
        v.put(name + "-time", s -> record.apply(s).at());
        v.put(name + "-rate", s -> record.apply(s).firingRate());
    }

    private static Function<BoilerState, Object> word(Predicate<BoilerState> bit, String one, String zero) {
        return s -> bit.test(s) ? one : zero;
    }

    private static boolean burns(BoilerState state, Fuel fuel) {
        return state.fire().fuel() == fuel;
    }

    private static double seconds(Duration duration) {
        return duration.toMillis() / 1000.0;
    }
}
