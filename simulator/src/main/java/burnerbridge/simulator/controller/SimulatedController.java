package burnerbridge.simulator.controller;

import burnerbridge.simulator.modbus.RegisterImage;
import burnerbridge.simulator.plant.Boiler;
import burnerbridge.simulator.plant.BoilerSettings;
import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.simulator.registers.ControllerRegisters;
import burnerbridge.simulator.registers.RegisterTable;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.function.Consumer;

/** A burner controller: a boiler, and the registers that show it. All methods may be called by any thread. */
public final class SimulatedController {
    private final int unit;
    private final Boiler boiler;
    private final ControllerRegisters registers;

    /**
     * @param unit its unit identifier
     * @param table its register table
     * @param seed two controllers of one seed, one table and one beginning run alike
     * @param ahead how long it has run already when it is first looked at
     */
    SimulatedController(
            int unit, RegisterTable table, BoilerSettings settings, long seed, Instant begins, Duration ahead) {
        this.unit = unit;
        this.boiler = new Boiler(settings, seed, begins.minus(ahead));
        this.registers = new ControllerRegisters(table);
        for (long step = ahead.dividedBy(Boiler.STEP); step > 0; step--) {
            boiler.step();
        }
        registers.show(boiler.state());
    }

    int unit() {
        return unit;
    }

    RegisterImage registers() {
        return registers;
    }

    /** Whether writes of what the plant above wants are taken; they are not at first. */
    void acceptWrites(boolean accepted) {
        registers.acceptWrites(accepted ? Optional.of(this::act) : Optional.empty());
    }

    /** What the boiler shows now. */
    public BoilerState state() {
        synchronized (boiler) {
            return boiler.state();
        }
    }

    /** Does something at the boiler, between two of its steps: {@code act(Boiler::failFlame)}. */
    public void act(Consumer<Boiler> act) {
        synchronized (boiler) {
            act.accept(boiler);
            registers.show(boiler.state());
        }
    }
}
