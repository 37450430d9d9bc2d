package burnerbridge.simulator.controller;

import burnerbridge.simulator.clock.MachineTicker;
import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WireRate;
import burnerbridge.simulator.device.WrittenFrame;
import burnerbridge.simulator.manners.WriteManners;
import burnerbridge.simulator.modbus.RegisterImage;
import burnerbridge.simulator.modbus.UnknownUnit;
import burnerbridge.simulator.plant.Blueprints;
import burnerbridge.simulator.plant.Boiler;
import burnerbridge.simulator.registers.RegisterTable;
import java.io.IOException;
import java.net.InetAddress;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Quillmere Glasshouses, an invented grower: two hot-water boilers of two makes on one serial line behind a
 * device server, and a steam boiler on Modbus TCP, at the pace of the real clock. A second door, on Modbus
 * TCP too, shows the registers of all three to whoever wants to compare, so that the line keeps its one
 * master.
 *
 * <p>Of one seed and one beginning two plants run alike. All methods may be called by any thread.
 */
public final class Quillmere implements AutoCloseable {
    /** On the line of the boiler house, unit 1. */
    public static final String BOILER_1 = "boiler-1";
    /** On the line of the boiler house, unit 2. */
    public static final String BOILER_2 = "boiler-2";
    /** In the annex, unit 3. */
    public static final String STEAM_1 = "steam-1";
    /** Of the line of the boiler house; 8 data bits, even parity, one stop bit. */
    public static final WireRate RATE = new WireRate(19_200, 11);

    private static final Logger LOG = LoggerFactory.getLogger(Quillmere.class);

    private final Map<String, SimulatedController> controllers = new LinkedHashMap<>();
    private final FieldDevice boilerHouse;
    private final FieldDevice annex;
    private final FieldDevice secondDoor;
    private final ScheduledExecutorService pace;
    private volatile boolean frozen;

    /**
     * Where it is reached; each 0 for any free port.
     *
     * @param boilerHouse RTU frames over TCP
     * @param annex Modbus TCP
     * @param secondDoor Modbus TCP, with all units
     */
    public record Places(InetAddress host, int boilerHouse, int annex, int secondDoor) {}

    /** @param begins what the clocks of its controllers show at first */
    public Quillmere(Places places, long seed, Instant begins) {
        add(BOILER_1, controller(1, "hot-water", seed, begins, Duration.ofSeconds(95)));
        add(BOILER_2, controller(2, "hot-water-old", seed + 1, begins, Duration.ZERO));
        add(STEAM_1, controller(3, "steam", seed + 2, begins, Duration.ofSeconds(100)));
        boilerHouse = new FieldDevice(
                new Door.RtuOverTcp(places.host(), places.boilerHouse(), RATE),
                images(BOILER_1, BOILER_2),
                UnknownUnit.SILENT);
        boilerHouse.behave(new Habits(
                Map.of(
                        1, new Habits.Habit(Duration.ofMillis(4), Duration.ZERO),
                        2, new Habits.Habit(Duration.ofMillis(9), Duration.ofMillis(12))),
                RATE,
                new MachineTicker()));
        annex = new FieldDevice(
                new Door.ModbusTcp(places.host(), places.annex()), images(STEAM_1), UnknownUnit.REFUSED);
        secondDoor = new FieldDevice(
                new Door.ModbusTcp(places.host(), places.secondDoor()),
                onlyRead(images(BOILER_1, BOILER_2, STEAM_1)),
                UnknownUnit.REFUSED);
        pace = Executors.newSingleThreadScheduledExecutor(work -> {
            Thread thread = new Thread(work, "plant quillmere");
            thread.setDaemon(true);
            return thread;
        });
    }

    private static SimulatedController controller(int unit, String type, long seed, Instant begins, Duration ahead) {
        return new SimulatedController(
                unit,
                RegisterTable.shipped(type),
                switch (unit) {
                    case 1 -> Blueprints.boiler1();
                    case 2 -> Blueprints.boiler2();
                    default -> Blueprints.steam1();
                },
                seed,
                begins,
                ahead);
    }

    private void add(String name, SimulatedController controller) {
        controllers.put(name, controller);
    }

    private Map<Integer, RegisterImage> images(String... names) {
        return List.of(names).stream()
                .map(this::controller)
                .collect(Collectors.toMap(SimulatedController::unit, SimulatedController::registers));
    }

    /** Who compares by it must not be able to change what is compared. */
    private static Map<Integer, RegisterImage> onlyRead(Map<Integer, RegisterImage> images) {
        return images.entrySet().stream()
                .collect(Collectors.toMap(Map.Entry::getKey, image -> new OnlyRead(image.getValue())));
    }

    /**
     * Lights up the controllers and opens the doors; once.
     *
     * @throws java.net.BindException where a port is taken
     */
    public void start() throws IOException {
        boilerHouse.start();
        annex.start();
        secondDoor.start();
        long step = Boiler.STEP.toMillis();
        // What goes wrong in a step is told by the step itself.
        ScheduledFuture<?> unused = pace.scheduleAtFixedRate(this::step, step, step, TimeUnit.MILLISECONDS);
    }

    /** Stands still from now on, or no longer; the doors stay open. */
    public void freeze(boolean still) {
        frozen = still;
    }

    public boolean isFrozen() {
        return frozen;
    }

    /** The names of its controllers, as the example site has them. */
    public Collection<String> names() {
        return List.copyOf(controllers.keySet());
    }

    /** @throws IllegalArgumentException where there is none of that name */
    public SimulatedController controller(String name) {
        SimulatedController controller = controllers.get(name);
        if (controller == null) {
            throw new IllegalArgumentException("Quillmere has no " + name);
        }
        return controller;
    }

    /** Takes one controller off its line, or puts it back; the second door stays as it is. */
    public void pullCable(String name, boolean pulled) {
        FieldDevice line = name.equals(STEAM_1) ? annex : boilerHouse;
        int unit = controller(name).unit();
        if (pulled) {
            line.pullCable(unit);
        } else {
            line.plugCableIn(unit);
        }
    }

    /**
     * Whether its controllers take writes of what the plant above wants: the load limit and the release, where they have
     * them in a register of their own. They do not at first, and through the second door never.
     */
    public void acceptWrites(boolean accepted) {
        controllers.values().forEach(controller -> controller.acceptWrites(accepted));
    }

    /** Every frame to a controller on its line that was no read, in order, whatever became of it. */
    public List<WrittenFrame> written(String name) {
        FieldDevice line = name.equals(STEAM_1) ? annex : boilerHouse;
        int unit = controller(name).unit();
        return line.written().stream().filter(frame -> frame.unit() == unit).toList();
    }

    /** How its controllers treat writes that they take. */
    public void behaveTowardWrites(WriteManners manners) {
        boilerHouse.behaveTowardWrites(manners);
        annex.behaveTowardWrites(manners);
    }

    /** The port of the boiler house's line. */
    public int boilerHousePort() {
        return boilerHouse.port();
    }

    public int annexPort() {
        return annex.port();
    }

    public int secondDoorPort() {
        return secondDoor.port();
    }

    private void step() {
        if (frozen) {
            return;
        }
        try {
            controllers.values().forEach(controller -> controller.act(Boiler::step));
        } catch (RuntimeException e) {
            LOG.error("plant quillmere: stopped", e);
            throw e;
        }
    }

    @Override
    public void close() {
        pace.shutdownNow();
        secondDoor.close();
        annex.close();
        boilerHouse.close();
    }
}
