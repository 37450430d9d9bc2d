package burnerbridge.simulator.demo;

import burnerbridge.simulator.broker.BrokerException;
import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.simulator.demo.screen.Keys;
import burnerbridge.simulator.demo.screen.Screen;
import burnerbridge.simulator.demo.screen.Terminal;
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
    private static final long KEYS_ASKED_EVERY_MILLIS = 50;
    private static final int SHOWN_EVERY = 5;
    private static final int LINES_OF_LOG = 20;
    /** How long the opening waits for a key. */
    private static final Duration LONGEST_OPENING = Duration.ofSeconds(60);

    private static final Duration SHORT_OPENING = Duration.ofSeconds(3);
    /** On a busy machine it takes the bridge a while to start. */
    private static final int MORE_SECONDS_FOR_THE_BRIDGE = 30;

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
     * @throws DemoException where a part cannot be started, the bridge ends by itself, or nothing of a
     *     controller has come over MQTT by the end of a set length
     */
    void until(StopSignal stop) throws DemoException, InterruptedException {
        try (StartedParts parts = new StartedParts()) {
            runWith(parts, stop);
            parts.close();
            terminal.out().println("Everything is put away.");
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
        Quillmere plant = parts.add(new Quillmere(ports.ofPlant(), SEED, clock.instant()));
        plant.start();
        Stage stage = parts.add(new Stage(plant, ports.mqtt(), clock));
        stage.startBroker();
        DaemonProcess daemon = parts.add(DaemonProcess.start(launch.command(site), log));
        StopSignal over = new StopSignal();
        length.ifPresent(over::giveAfter);
        Opening opening = new Opening(ports, site, log, DaemonProcess.stateFolder(log));
        try (Keys keys = terminal.keys();
                Screen screen = terminal.screen(keysText(keys))) {
            Duration patience = length.isPresent() ? SHORT_OPENING : LONGEST_OPENING;
            Showing showing = new Showing(stage, keys, screen, opening.text(), patience, stop, over, daemon);
            showing.run();
        }
        if (!daemon.isAlive() && !stop.isGiven()) {
            folder.keep();
            throw new DemoException(DemoException.NOT_REACHED, daemon.obituary(LINES_OF_LOG));
        }
        if (over.isGiven() && !stop.isGiven() && !stage.isSeen()) {
            folder.keep();
            throw new DemoException(
                    DemoException.NOT_REACHED,
                    "nothing good of some controller has come over MQTT; the bridge's log: " + log);
        }
    }

    private static String keysText(Keys keys) {
        if (!keys.canBeTyped()) {
            return "Ctrl-C ends everything";
        }
        return Visitor.KEYS + (keys.needEnter() ? ", each with Enter" : "");
    }

    private Path siteFor(Ports ports, TemporaryFolder folder) throws IOException, DemoException {
        if (ports.equals(Ports.USUAL)) {
            return launch.site();
        }
        Path copy = folder.path().resolve("site");
        SiteCopy.make(launch.site(), copy, ports);
        return copy;
    }

    /** What is on the screen, from the opening to the end. */
    private record Showing(
            Stage stage,
            Keys keys,
            Screen screen,
            String opening,
            Duration patience,
            StopSignal stop,
            StopSignal over,
            DaemonProcess daemon) {

        void run() throws BrokerException, MqttException, InterruptedException {
            Visitor visitor = new Visitor(stage);
            open();
            for (int turn = 0; goesOn(); turn++) {
                Optional<Character> key = keys.next();
                if (key.isPresent()) {
                    heed(visitor.press(key.get()));
                }
                if (key.isPresent() || turn % SHOWN_EVERY == 0) {
                    screen.show(stage);
                }
                stop.given(KEYS_ASKED_EVERY_MILLIS, TimeUnit.MILLISECONDS);
            }
            waitForTheFirstValues();
            // Ctrl-C reaches the bridge too, perhaps first: it has ended by itself only if no stop follows.
            stop.given(10 * KEYS_ASKED_EVERY_MILLIS, TimeUnit.MILLISECONDS);
        }

        private void heed(Visitor.Wish wish) throws InterruptedException {
            if (wish == Visitor.Wish.END) {
                stop.give();
            } else if (wish == Visitor.Wish.SHOW_OPENING) {
                open();
            }
        }

        private boolean goesOn() {
            return !stop.isGiven() && !over.isGiven() && daemon.isAlive();
        }

        private void open() throws InterruptedException {
            screen.open(opening);
            if (!keys.canBeTyped()) {
                return;
            }
            screen.open(
                    keys.needEnter() ? "Enter shows it live, q and Enter ends it." : "Any key shows it live, q ends.");
            for (long left = patience.toMillis(); goesOn() && left > 0; left -= KEYS_ASKED_EVERY_MILLIS) {
                Optional<Character> key = keys.next();
                if (key.isPresent()) {
                    heed(key.get() == 'q' ? Visitor.Wish.END : Visitor.Wish.GO_ON);
                    return;
                }
                stop.given(KEYS_ASKED_EVERY_MILLIS, TimeUnit.MILLISECONDS);
            }
        }

        private void waitForTheFirstValues() throws InterruptedException {
            long turns = MORE_SECONDS_FOR_THE_BRIDGE * 1000L / KEYS_ASKED_EVERY_MILLIS;
            while (turns-- > 0 && over.isGiven() && !stop.isGiven() && daemon.isAlive() && !stage.isSeen()) {
                stop.given(KEYS_ASKED_EVERY_MILLIS, TimeUnit.MILLISECONDS);
            }
        }
    }
}
