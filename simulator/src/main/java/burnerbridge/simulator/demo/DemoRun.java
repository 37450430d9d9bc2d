package burnerbridge.simulator.demo;

import burnerbridge.simulator.broker.BrokerException;
import burnerbridge.simulator.broker.EmbeddedBroker;
import burnerbridge.simulator.controller.SimulatedController;
import burnerbridge.simulator.plant.BurnerSettings;
import burnerbridge.simulator.plant.BurnerState;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.common.MqttException;

/** One demo from its first part to its last: starts them in order, shows, puts them away in reverse. */
final class DemoRun {
    private static final long SEED = 20261125;
    private static final int UNIT = 1;
    private static final String CONTROLLER = "boiler-1";
    private static final String CONTROLLER_TOPIC = "plant/quillmere/" + CONTROLLER;
    private static final long REFRESH_MILLIS = 500;
    private static final int LINES_OF_LOG = 20;

    private final Launch launch;
    private final Terminal terminal;
    private final Clock clock;
    private final Ports wanted;
    private final Optional<Duration> length;

    /**
     * @param wanted ports, used where they are free
     * @param length after which it ends by itself, from when everything has started; empty: never
     */
    DemoRun(Launch launch, Terminal terminal, Clock clock, Ports wanted, Optional<Duration> length) {
        this.launch = launch;
        this.terminal = terminal;
        this.clock = clock;
        this.wanted = wanted;
        this.length = length;
    }

    /**
     * Runs until it is to stop.
     *
     * @throws DemoException where a part cannot be started, or the bridge ends by itself
     */
    void until(StopSignal stop) throws DemoException, InterruptedException {
        try (StartedParts parts = new StartedParts()) {
            runWith(parts, stop);
        } catch (IOException | BrokerException | MqttException e) {
            throw new DemoException(DemoException.NOT_REACHED, "the demo cannot start", e);
        }
    }

    private void runWith(StartedParts parts, StopSignal stop)
            throws IOException, BrokerException, MqttException, DemoException, InterruptedException {
        TemporaryFolder folder = parts.add(TemporaryFolder.make());
        Ports ports = wanted.orFreeOnes();
        Path site = siteFor(ports, folder);
        Path log = folder.path().resolve("bridge.log");
        SimulatedController controller = parts.add(
                new SimulatedController(CONTROLLER, Ports.HOST, ports.modbus(), UNIT, BurnerSettings.brisk(), SEED));
        controller.start();
        EmbeddedBroker broker = parts.add(new EmbeddedBroker(Ports.HOST, ports.mqtt()));
        broker.start();
        TopicWatch watch = parts.add(new TopicWatch(ports.mqtt(), CONTROLLER_TOPIC));
        watch.start();
        DaemonProcess daemon = parts.add(DaemonProcess.start(launch.command(site), log));
        terminal.out().println(new Opening(ports, site, log).text());
        length.ifPresent(stop::giveAfter);
        try (Screen screen = terminal.screen(PlantRow.hotWater(), watch::point, footer(ports))) {
            showUntil(stop, controller, daemon, screen);
        }
        if (!daemon.isAlive() && !stop.isGiven()) {
            folder.keep();
            throw new DemoException(DemoException.NOT_REACHED, daemon.obituary(LINES_OF_LOG));
        }
    }

    private Path siteFor(Ports ports, TemporaryFolder folder) throws IOException, DemoException {
        if (ports.equals(Ports.USUAL)) {
            return launch.site();
        }
        Path copy = folder.path().resolve("site");
        SiteCopy.make(launch.site(), copy, ports);
        return copy;
    }

    private void showUntil(StopSignal stop, SimulatedController controller, DaemonProcess daemon, Screen screen)
            throws InterruptedException {
        Attendant attendant = new Attendant(controller);
        do {
            BurnerState state = controller.state();
            attendant.attend(state);
            screen.show(state, clock.instant());
            // Ctrl-C reaches the bridge too, perhaps first: it has ended by itself only if no stop follows.
        } while (!stop.given(REFRESH_MILLIS, TimeUnit.MILLISECONDS) && daemon.isAlive());
        stop.given(REFRESH_MILLIS, TimeUnit.MILLISECONDS);
    }

    private static String footer(Ports ports) {
        return "Modbus TCP " + ports.modbus() + " | MQTT " + ports.mqtt() + " | BACnet/IP " + ports.bacnet()
                + " | Ctrl-C ends everything";
    }
}
