package burnerbridge.simulator.demo;

import burnerbridge.simulator.broker.BrokerException;
import burnerbridge.simulator.broker.EmbeddedBroker;
import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.simulator.demo.feed.Published;
import burnerbridge.simulator.demo.feed.TopicWatch;
import burnerbridge.simulator.demo.screen.Scene;
import burnerbridge.simulator.plant.BoilerState;
import java.time.Clock;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.jspecify.annotations.Nullable;

/** The plant, the broker and what came over it; what a visitor can do to them. For one thread. */
final class Stage implements Scene, AutoCloseable {
    private static final String SITE_TOPIC = "plant/quillmere";

    private final Quillmere plant;
    private final Clock clock;
    private final int brokerPort;
    private final TopicWatch watch;
    private final Set<String> cablesOut = new HashSet<>();
    private @Nullable EmbeddedBroker broker;
    private int chosen;
    private String told = "";

    Stage(Quillmere plant, int brokerPort, Clock clock) throws MqttException {
        this.plant = plant;
        this.brokerPort = brokerPort;
        this.clock = clock;
        this.watch = new TopicWatch(brokerPort, SITE_TOPIC);
    }

    /** Starts the broker, at first and after it was stopped; without effect where it runs. */
    void startBroker() throws BrokerException, MqttException {
        if (broker == null) {
            EmbeddedBroker started = new EmbeddedBroker(Ports.HOST, brokerPort);
            started.start();
            broker = started;
            watch.connect();
        }
    }

    void stopBroker() {
        EmbeddedBroker stopped = broker;
        broker = null;
        if (stopped != null) {
            stopped.close();
        }
    }

    Quillmere plant() {
        return plant;
    }

    /** Takes the chosen controller off its line, or puts it back. */
    void pullCable(boolean out) {
        plant.pullCable(chosen(), out);
        if (out) {
            cablesOut.add(chosen());
        } else {
            cablesOut.remove(chosen());
        }
    }

    void choose(int index) {
        chosen = index;
    }

    void tell(String sentence) {
        told = sentence;
    }

    /** Whether something of every controller has come over MQTT as good. */
    boolean isSeen() {
        return controllers().stream().allMatch(name -> watch.tally(name).good() > 0);
    }

    @Override
    public Instant now() {
        return clock.instant();
    }

    @Override
    public List<String> controllers() {
        return List.copyOf(plant.names());
    }

    @Override
    public String chosen() {
        return controllers().get(chosen);
    }

    @Override
    public BoilerState state(String controller) {
        return plant.controller(controller).state();
    }

    @Override
    public Optional<Published> published(String controller, String point) {
        return watch.point(controller, point);
    }

    @Override
    public TopicWatch.Tally tally(String controller) {
        return watch.tally(controller);
    }

    @Override
    public String link(String controller) {
        return watch.link(controller);
    }

    @Override
    public boolean isCableOut(String controller) {
        return cablesOut.contains(controller);
    }

    @Override
    public boolean isBrokerRunning() {
        return broker != null;
    }

    @Override
    public boolean isFrozen() {
        return plant.isFrozen();
    }

    @Override
    public String told() {
        return told;
    }

    @Override
    public void close() throws MqttException {
        try {
            watch.close();
        } finally {
            stopBroker();
        }
    }
}
