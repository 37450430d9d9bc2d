package burnerbridge.simulator.demo.screen;

import burnerbridge.simulator.demo.feed.Published;
import burnerbridge.simulator.demo.feed.TopicWatch;
import burnerbridge.simulator.plant.BoilerState;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** What there is to show at a moment. */
public interface Scene {

    Instant now();

    /** The controllers, in their order. */
    List<String> controllers();

    /** The one that the visitor looks at. */
    String chosen();

    /** What the plant itself has. */
    BoilerState state(String controller);

    /** What came over MQTT of a point. */
    Optional<Published> published(String controller, String point);

    /** How the points of a controller came. */
    TopicWatch.Tally tally(String controller);

    /** What the bridge says of the link to a controller: up, down or unknown; empty before it has. */
    String link(String controller);

    boolean isCableOut(String controller);

    boolean isBrokerRunning();

    boolean isFrozen();

    /** What became of the last key; empty before the first. */
    String told();
}
