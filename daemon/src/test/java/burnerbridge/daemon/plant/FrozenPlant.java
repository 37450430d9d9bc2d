package burnerbridge.daemon.plant;

import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.simulator.plant.Boiler;
import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.simulator.plant.Phase;
import burnerbridge.simulator.plant.fire.Fuel;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Stream;

/** Quillmere at a moment that a test chose, and the example site with its ports. */
public final class FrozenPlant implements AutoCloseable {
    private static final Instant BEGINS = Instant.parse("2026-11-28T09:30:00Z");
    private static final int LONGEST_STEPS = 10_000;

    public final Quillmere plant =
            new Quillmere(new Quillmere.Places(InetAddress.getLoopbackAddress(), 0, 0, 0), 7, BEGINS);

    public FrozenPlant() throws IOException {
        plant.freeze(true);
        plant.start();
    }

    /** One boiler modulating, one locked out in a firing, and steam from gas. */
    public void firingAndLockedOut() {
        until(Quillmere.BOILER_1, s -> s.phase() == Phase.MODULATION && s.firingRate() > 40);
        until(Quillmere.BOILER_2, s -> s.phase() == Phase.MODULATION && s.firingRate() > 40);
        plant.controller(Quillmere.BOILER_2).act(Boiler::failFlame);
        until(Quillmere.BOILER_2, BoilerState::lockout);
        until(Quillmere.STEAM_1, s -> s.phase() == Phase.MODULATION);
    }

    /** One boiler on its way to a flame, one firing, and steam from oil. */
    void startingAndOnOil() {
        until(
                Quillmere.BOILER_1,
                s -> s.phase() == Phase.PILOT_TRIAL && s.fire().flame());
        until(Quillmere.BOILER_2, s -> s.phase() == Phase.MODULATION && s.firingRate() > 40);
        plant.controller(Quillmere.STEAM_1).act(boiler -> boiler.choose(Fuel.OIL));
        until(Quillmere.STEAM_1, s -> s.phase() == Phase.MODULATION && s.fire().fuel() == Fuel.OIL);
    }

    private void until(String name, Predicate<BoilerState> reached) {
        for (int steps = 0; !reached.test(plant.controller(name).state()); steps++) {
            if (steps > LONGEST_STEPS) {
                throw new AssertionError(
                        name + ": not reached: " + plant.controller(name).state());
            }
            plant.controller(name).act(Boiler::step);
        }
    }

    BoilerState state(String controller) {
        return plant.controller(controller).state();
    }

    /** The example site with the ports that this plant has. */
    Path site(Path to) throws IOException {
        return site(
                to,
                yaml -> replaced(
                        replaced(yaml, "port: 7001", "port: " + plant.boilerHousePort()),
                        "port: 1502",
                        "port: " + plant.annexPort()));
    }

    /** The same for the whole bridge: with a broker, and a BACnet port. */
    public Path siteForAll(Path to, int brokerPort, int bacnetPort) throws IOException {
        Path site = site(to);
        Path yaml = site.resolve("site.yaml");
        String text = replaced(Files.readString(yaml), "127.0.0.1:1883", "127.0.0.1:" + brokerPort);
        Files.writeString(yaml, replaced(text, "port: 47808", "port: " + bacnetPort));
        return site;
    }

    /** The same with the boiler house on a serial port, which like a pseudo-terminal has no parity. */
    public Path siteOnASerialPort(Path to, Path port, int brokerPort, int bacnetPort) throws IOException {
        Path yaml = siteForAll(to, brokerPort, bacnetPort).resolve("site.yaml");
        Files.writeString(
                yaml,
                replaced(
                        Files.readString(yaml),
                        "rtu-over-tcp: {host: 127.0.0.1, port: " + plant.boilerHousePort() + ", baud: 19200}",
                        "serial: {port: " + port + ", baud: 19200, parity: none, stop-bits: 1}"));
        return to;
    }

    /** The example site with all its controllers behind the second door. */
    Path siteBehindTheSecondDoor(Path to) throws IOException {
        return site(to, yaml -> {
            String annex = replaced(yaml, "port: 1502", "port: " + plant.secondDoorPort());
            int from = annex.indexOf("  boiler-house:\n");
            int end = annex.indexOf("  annex:\n");
            return annex.substring(0, from) + annex.substring(end).replace("line: boiler-house", "line: annex");
        });
    }

    private static Path site(Path to, java.util.function.UnaryOperator<String> change) throws IOException {
        Path from = Path.of("..", "config", "examples", "quillmere");
        List<Path> all;
        try (Stream<Path> walk = Files.walk(from)) {
            all = walk.toList();
        }
        for (Path path : all) {
            if (Files.isRegularFile(path)) {
                Path target = to.resolve(from.relativize(path).toString());
                Files.createDirectories(target.getParent());
                Files.copy(path, target);
            }
        }
        Path yaml = to.resolve("site.yaml");
        Files.writeString(yaml, change.apply(Files.readString(yaml)));
        return to;
    }

    private static String replaced(String text, String what, String by) {
        if (!text.contains(what)) {
            throw new AssertionError("'" + what + "' is not in the site");
        }
        return text.replace(what, by);
    }

    @Override
    public void close() {
        plant.close();
    }
}
