package burnerbridge.simulator.registers;

import burnerbridge.simulator.plant.BoilerSettings;
import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.simulator.plant.FaultRecord;
import burnerbridge.simulator.plant.fire.Fire;
import burnerbridge.simulator.plant.fire.FlueGas;
import burnerbridge.simulator.plant.fire.Fuel;
import burnerbridge.simulator.plant.fire.FuelSettings;
import burnerbridge.simulator.plant.vessel.VesselState;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/** Everything that a boiler can show, by the words of the register tables. */
final class Signals {
    private static final int FAULTS = 8;
    private static final int CURVE_POINTS = 5;
    private static final double MICROAMPERES_A_PERCENT = 0.3;

    private static final Map<String, Signal> ALL = all();

    private Signals() {}

    /**
     * @param word the name of a signal, or {@code =} and a number for one that never changes
     * @throws IllegalArgumentException where there is no such signal
     */
    static Signal of(String word) {
        if (word.startsWith("=")) {
            double constant = Double.parseDouble(word.substring(1));
            return state -> constant;
        }
        Signal signal = ALL.get(word);
        if (signal == null) {
            throw new IllegalArgumentException("there is no signal '" + word + "'");
        }
        return signal;
    }

    private static Map<String, Signal> all() {
        Map<String, Signal> all = new HashMap<>();
        sequence(all);
        states(all);
        fire(all);
        flueGas(all);
        vessel(all);
        settings(all);
        for (Fuel fuel : Fuel.values()) {
            ofFuel(all, fuel);
        }
        totals(all);
        for (int i = 0; i < FAULTS; i++) {
            int at = i;
            fault(all, "fault-" + (i + 1), s -> s.fault(at));
            fault(all, "slot-" + (i + 1), s -> s.faults().get(at));
        }
        return all;
    }

    private static void sequence(Map<String, Signal> all) {
        all.put("phase", BoilerState::phase);
        all.put("seconds-in-phase", s -> s.inPhase().toSeconds());
        all.put(
                "seconds-left",
                s -> Math.max(0, s.phaseLength().minus(s.inPhase()).toSeconds()));
        all.put("cause", BoilerState::cause);
        all.put("mode", BoilerState::mode);
        all.put("fuel", s -> s.fire().fuel());
        all.put("fuel-chosen", BoilerState::chosen);
        all.put("firing-rate", BoilerState::firingRate);
        all.put("load-demand", BoilerState::loadDemand);
        all.put("load-limit", BoilerState::loadLimit);
        all.put("clock", BoilerState::at);
        all.put("beat", s -> s.beats() / 10 % 2 == 1);
        all.put("beats", s -> s.beats() / 10 % 1000);
        all.put("newest-slot", s -> s.newestFault() + 1);
        all.put("not-fitted", s -> Double.NaN);
    }

    private static void states(Map<String, Signal> all) {
        all.put("released", BoilerState::released);
        all.put("available", BoilerState::available);
        all.put("running", s -> s.phase().isRunning());
        all.put("lockout", BoilerState::lockout);
        all.put("flue-too-hot", BoilerState::flueTooHot);
        all.put("oxygen-low", BoilerState::oxygenLow);
        all.put("pilot-valve", BoilerState::pilotValve);
        all.put("main-valve", BoilerState::mainValve);
        all.put("igniter", BoilerState::igniter);
        all.put("call-for-heat", s -> s.vessel().callForHeat());
        all.put("pump", s -> s.vessel().pump());
        all.put("flame", s -> s.fire().flame());
        all.put("fan-running", s -> s.fire().fanRunning());
        all.put("air-proven", s -> s.fire().airProven());
        all.put(
                "gas-proven",
                s -> s.fire().gasPressure() >= s.settings().of(Fuel.GAS).lowPressure());
    }

    private static void fire(Map<String, Signal> all) {
        Map<String, ToDoubleFunction<Fire>> shown = Map.ofEntries(
                Map.entry("flame-signal", Fire::flameSignal),
                Map.entry("flame-current", f -> f.flameSignal() * MICROAMPERES_A_PERCENT),
                Map.entry("air-position", f -> f.air().actual()),
                Map.entry("air-command", f -> f.air().commanded()),
                Map.entry("gas-position", f -> f.gas().actual()),
                Map.entry("gas-command", f -> f.gas().commanded()),
                Map.entry("oil-position", f -> f.oil().actual()),
                Map.entry("oil-command", f -> f.oil().commanded()),
                Map.entry("fan-command", Fire::fanCommand),
                Map.entry("fan-speed", Fire::fanSpeed),
                Map.entry("fan-current", Fire::fanCurrent),
                Map.entry("gas-pressure", Fire::gasPressure),
                Map.entry("oil-pressure", Fire::oilPressure),
                Map.entry("air-pressure", Fire::airPressure),
                Map.entry("furnace-pressure", Fire::furnacePressure),
                Map.entry("thermal-power", Fire::power),
                Map.entry("gas-flow", f -> f.fuel() == Fuel.GAS ? f.fuelFlow() : 0),
                Map.entry("oil-flow", f -> f.fuel() == Fuel.OIL ? f.fuelFlow() : 0));
        shown.forEach((name, number) -> all.put(name, s -> number.applyAsDouble(s.fire())));
    }

    private static void flueGas(Map<String, Signal> all) {
        Map<String, ToDoubleFunction<FlueGas>> shown = Map.of(
                "oxygen", FlueGas::oxygen,
                "carbon-monoxide", FlueGas::carbonMonoxide,
                "carbon-dioxide", FlueGas::carbonDioxide,
                "nitrogen-oxides", FlueGas::nitrogenOxides,
                "flue-temperature", FlueGas::temperature,
                "air-temperature", FlueGas::airTemperature,
                "efficiency", FlueGas::efficiency);
        shown.forEach((name, number) -> all.put(name, s -> number.applyAsDouble(s.flueGas())));
    }

    private static void vessel(Map<String, Signal> all) {
        Map<String, ToDoubleFunction<VesselState>> shown = Map.ofEntries(
                Map.entry("supply-temperature", VesselState::supply),
                Map.entry("return-temperature", VesselState::back),
                Map.entry("feed-temperature", VesselState::feed),
                Map.entry("outdoor-temperature", VesselState::outdoor),
                Map.entry("water-pressure", VesselState::waterPressure),
                Map.entry("water-flow", VesselState::waterFlow),
                Map.entry("steam-pressure", VesselState::steamPressure),
                Map.entry("steam-flow", VesselState::steamFlow),
                Map.entry("water-level", VesselState::level));
        shown.forEach((name, number) -> all.put(name, s -> number.applyAsDouble(s.vessel())));
    }

    private static void settings(Map<String, Signal> all) {
        Map<String, Function<BoilerSettings, Object>> shown = Map.ofEntries(
                Map.entry("model", b -> b.identity().model()),
                Map.entry("serial-number", b -> b.identity().serialNumber()),
                Map.entry("serial-digits", b -> Long.valueOf(b.identity().serialNumber())),
                Map.entry("firmware", b -> b.identity().firmware()),
                Map.entry("firmware-number", b -> Double.valueOf(b.identity().firmware())),
                Map.entry("parameter-set", b -> b.identity().parameterSet()),
                Map.entry("full-power", BoilerSettings::fullPower),
                Map.entry("pre-purge-time", b -> seconds(b.times().prePurge())),
                Map.entry("low-fire-hold", b -> seconds(b.times().lowFireHold())),
                Map.entry("post-purge-time", b -> seconds(b.times().postPurge())),
                Map.entry("shortest-standby", b -> seconds(b.times().shortestStandby())),
                Map.entry("flame-failure-time", b -> seconds(b.times().flameFailure())),
                Map.entry("set-point", b -> b.range().setPoint()),
                Map.entry("start-below", b -> b.range().startBelow()),
                Map.entry("stop-above", b -> b.range().stopAbove()),
                Map.entry("high-limit", b -> b.range().highLimit()),
                Map.entry("load-gain", b -> b.load().gain()),
                Map.entry("load-integral", b -> seconds(b.load().integral())),
                Map.entry("least-air-pressure", b -> b.limits().airPressure()),
                Map.entry("most-deviation", b -> b.limits().deviation()),
                Map.entry("most-flue-temperature", b -> b.limits().flueTemperature()),
                Map.entry("least-oxygen", b -> b.limits().oxygen()),
                Map.entry("least-level", b -> b.limits().waterLevel()));
        shown.forEach((name, value) -> all.put(name, s -> value.apply(s.settings())));
    }

    private static void ofFuel(Map<String, Signal> all, Fuel fuel) {
        Map<String, Function<FuelSettings, Object>> shown = Map.of(
                "low-fire",
                FuelSettings::lowFire,
                "pilot-trial",
                f -> seconds(f.pilotTrial()),
                "main-trial",
                f -> seconds(f.mainTrial()),
                "least-pressure",
                FuelSettings::lowPressure);
        shown.forEach((name, value) ->
                all.put(fuel.text() + "-" + name, s -> value.apply(s.settings().of(fuel))));
        for (int i = 0; i < CURVE_POINTS; i++) {
            int at = i;
            String name = fuel.text() + "-curve-" + (i + 1) + "-";
            all.put(
                    name + "load",
                    s -> s.settings().of(fuel).curve().points().get(at).load());
            all.put(
                    name + "fuel",
                    s -> s.settings().of(fuel).curve().points().get(at).fuel());
            all.put(
                    name + "air",
                    s -> s.settings().of(fuel).curve().points().get(at).air());
            all.put(
                    name + "fan",
                    s -> s.settings().of(fuel).curve().points().get(at).fan());
        }
    }

    private static void totals(Map<String, Signal> all) {
        all.put("starts", s -> s.totals().allStarts());
        all.put("lockouts", s -> s.totals().lockouts());
        all.put("run-hours", s -> s.totals().allRunHours());
        all.put("heat", s -> s.totals().heat());
        all.put("powered-hours", s -> s.totals().poweredHours());
        for (Fuel fuel : Fuel.values()) {
            String name = fuel.text();
            all.put(name + "-starts", s -> s.totals().starts().getOrDefault(fuel, 0L));
            all.put(name + "-run-hours", s -> s.totals().runHours().getOrDefault(fuel, 0.0));
            all.put(name + "-used", s -> s.totals().fuelUsed().getOrDefault(fuel, 0.0));
        }
    }

    private static void fault(Map<String, Signal> all, String name, Function<BoilerState, FaultRecord> record) {
        all.put(name + "-cause", s -> record.apply(s).cause());
        all.put(name + "-time", s -> record.apply(s).at());
        all.put(name + "-phase", s -> record.apply(s).phase());
        all.put(name + "-rate", s -> record.apply(s).firingRate());
        all.put(name + "-fuel", s -> record.apply(s).fuel());
        all.put(name + "-starts", s -> record.apply(s).starts());
    }

    private static double seconds(Duration duration) {
        return duration.toMillis() / 1000.0;
    }
}
