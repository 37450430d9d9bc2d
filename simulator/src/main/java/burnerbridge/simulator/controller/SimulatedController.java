package burnerbridge.simulator.controller;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.modbus.UnknownUnit;
import burnerbridge.simulator.plant.Burner;
import burnerbridge.simulator.plant.BurnerSettings;
import burnerbridge.simulator.plant.BurnerState;
import java.io.IOException;
import java.net.InetAddress;
import java.util.Map;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A burner that runs at the pace of the real clock behind a Modbus TCP port of its own.
 *
 * <p>All methods may be called by any thread.
 */
public final class SimulatedController implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(SimulatedController.class);

    private final String name;
    private final Burner burner;
    private final HotWaterRegisters registers = new HotWaterRegisters();
    private final FieldDevice server;
    private final ScheduledExecutorService pace;

    /**
     * @param port of its Modbus server; 0 for any free one
     * @param unit its unit identifier
     * @param seed two controllers of one seed run alike
     */
    public SimulatedController(String name, InetAddress host, int port, int unit, BurnerSettings settings, long seed) {
        this.name = name;
        this.burner = new Burner(settings, seed);
        this.server = new FieldDevice(new Door.ModbusTcp(host, port), Map.of(unit, registers), UnknownUnit.REFUSED);
        this.pace = Executors.newSingleThreadScheduledExecutor(work -> {
            Thread thread = new Thread(work, "plant " + name);
            thread.setDaemon(true);
            return thread;
        });
        registers.show(burner.state());
    }

    /**
     * Lights up the controller and its port; once.
     *
     * @throws java.net.BindException where the port is taken
     */
    public void start() throws IOException {
        server.start();
        long step = Burner.STEP.toMillis();
        // What goes wrong in a step is told by the step itself.
        ScheduledFuture<?> unused = pace.scheduleAtFixedRate(this::step, step, step, TimeUnit.MILLISECONDS);
    }

    /** What the burner shows now. */
    public BurnerState state() {
        synchronized (burner) {
            return burner.state();
        }
    }

    /** Does something at the burner, between two of its steps: {@code act(Burner::failFlame)}. */
    public void act(Consumer<Burner> act) {
        synchronized (burner) {
            act.accept(burner);
            registers.show(burner.state());
        }
    }

    /** Its Modbus port, to stop and start it or to pull its cable. */
    public FieldDevice server() {
        return server;
    }

    private void step() {
        try {
            act(Burner::step);
        } catch (RuntimeException e) {
            LOG.error("plant {}: stopped", name, e);
            throw e;
        }
    }

    @Override
    public void close() {
        pace.shutdownNow();
        server.close();
    }
}
