package burnerbridge.simulator.controller;

import static java.util.Map.entry;
import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import burnerbridge.simulator.ExampleSite;
import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.HandMadeClient;
import burnerbridge.simulator.modbus.UnknownUnit;
import burnerbridge.simulator.plant.Burner;
import burnerbridge.simulator.plant.BurnerSettings;
import burnerbridge.simulator.plant.BurnerState;
import burnerbridge.simulator.plant.Phase;
import java.io.IOException;
import java.net.InetAddress;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The point list of the example site and the simulated controller's registers agree, without the bridge. */
class PointListIT {
    private static final int UNIT = 1;
    private static final int LONGEST_RUN = 6000;

    private static final Map<String, Function<BurnerState, Object>> PLANT = Map.ofEntries(
            entry("phase", s -> s.phase().text()),
            entry("fault-cause", s -> s.cause().text()),
            entry("call-for-heat", s -> bit(s.callForHeat())),
            entry("pilot-valve", s -> bit(s.pilotValve())),
            entry("main-valve", s -> bit(s.mainValve())),
            entry("flame-present", s -> bit(s.flamePresent())),
            entry("lockout", s -> bit(s.lockout())),
            entry("firing-rate", BurnerState::firingRate),
            entry("boiler-temperature", BurnerState::waterTemperature),
            entry("flue-temperature", BurnerState::flueTemperature),
            entry("oxygen", BurnerState::oxygen),
            entry("fan-speed", BurnerState::fanSpeed),
            entry("gas-pressure", BurnerState::gasPressureMillibar),
            entry("furnace-pressure", BurnerState::furnacePressurePascal),
            entry("air-actuator", BurnerState::airActuator),
            entry("fuel-actuator", BurnerState::fuelActuator),
            entry("flame-signal", BurnerState::flameSignal),
            entry("thermal-power", BurnerState::thermalPower),
            entry("gas-flow", BurnerState::gasFlow),
            entry("starts", s -> (double) s.starts()),
            entry("run-hours", s -> Math.floor(s.runHours())));

    private final Burner burner = new Burner(BurnerSettings.brisk(), 11);
    private final HotWaterRegisters registers = new HotWaterRegisters();
    private final FieldDevice server = new FieldDevice(
            new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0), Map.of(UNIT, registers), UnknownUnit.REFUSED);

    @BeforeEach
    void start() throws IOException {
        server.start();
    }

    @AfterEach
    void close() {
        server.close();
    }

    @Test
    void theListNamesEveryValueOfThePlant() throws IOException {
        assertThat(points().stream().map(ListedPoint::name)).containsExactlyInAnyOrderElementsOf(PLANT.keySet());
    }

    @Test
    void everyPointReadsAsThePlantHasItInEveryPhase() throws IOException {
        List<ListedPoint> points = points();
        Set<Phase> seen = EnumSet.noneOf(Phase.class);
        try (HandMadeClient client = new HandMadeClient(server.port())) {
            for (int steps = 0; seen.size() < Phase.values().length; steps++) {
                assertThat(steps).as("steps; phases seen: %s", seen).isLessThan(LONGEST_RUN);
                step(seen);
                if (steps % 10 == 0) {
                    compare(points, client);
                    seen.add(burner.state().phase());
                }
            }
        }
    }

    @Test
    void aNegativeValueIsReadAsOne() throws IOException {
        registers.show(burner.state());
        ListedPoint pressure = points().stream()
                .filter(p -> p.name().equals("furnace-pressure"))
                .findFirst()
                .orElseThrow();

        try (HandMadeClient client = new HandMadeClient(server.port())) {
            assertThat((Double) pressure.read(client, UNIT)).isNegative();
        }
    }

    /** Once a whole cycle has been seen, the flame is made to fail so that the lockout is seen too. */
    private void step(Set<Phase> seen) {
        if (seen.contains(Phase.POST_PURGE)) {
            burner.failFlame();
        }
        burner.step();
        registers.show(burner.state());
    }

    private void compare(List<ListedPoint> points, HandMadeClient client) throws IOException {
        BurnerState state = burner.state();
        for (ListedPoint point : points) {
            Object plant = requireNonNull(PLANT.get(point.name())).apply(state);
            Object read = point.read(client, UNIT);
            if (plant instanceof Double number) {
                assertThat((Double) read).as(point.name()).isCloseTo(number, within(point.tolerance(number)));
            } else {
                assertThat(read).as(point.name()).isEqualTo(plant);
            }
        }
    }

    private static List<ListedPoint> points() throws IOException {
        return ExampleSite.pointRows().stream().map(ListedPoint::new).toList();
    }

    private static double bit(boolean value) {
        return value ? 1 : 0;
    }
}
