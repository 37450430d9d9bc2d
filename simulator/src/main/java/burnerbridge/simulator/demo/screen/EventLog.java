package burnerbridge.simulator.demo.screen;

import burnerbridge.simulator.demo.feed.Published;
import burnerbridge.simulator.demo.feed.TopicWatch;
import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.simulator.plant.Phase;
import java.io.PrintStream;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One line a change of phase, for output that is no terminal, and one for each boiler when its first good value has
 * come and at the end.
 */
final class EventLog implements Screen {
    private final PrintStream out;
    private final Map<String, Phase> told = new HashMap<>();
    private final Set<String> good = new HashSet<>();
    private @Nullable Scene last;

    EventLog(PrintStream out) {
        this.out = out;
    }

    @Override
    public void open(String text) {
        out.println(text);
        out.flush();
    }

    @Override
    public void show(Scene scene) {
        last = scene;
        for (String controller : scene.controllers()) {
            BoilerState state = scene.state(controller);
            if (told.put(controller, state.phase()) != state.phase()) {
                out.println(line(scene, controller, state));
                out.flush();
            }
            if (scene.tally(controller).good() > 0 && good.add(controller)) {
                out.println(scene.now().truncatedTo(ChronoUnit.SECONDS) + " first good value over MQTT: " + controller);
                out.flush();
            }
        }
    }

    private static String line(Scene scene, String controller, BoilerState state) {
        return String.format(
                Locale.ROOT,
                "%s %s: plant %s, %s, flue gas %.1f °C | over MQTT: %s",
                scene.now().truncatedTo(ChronoUnit.SECONDS),
                controller,
                state.phase().text(),
                PlantRow.controlled(state),
                state.flueGas().temperature(),
                scene.published(controller, "phase").map(Published::value).orElse("nothing yet"));
    }

    @Override
    public void close() {
        Optional.ofNullable(last)
                .ifPresent(scene -> scene.controllers().forEach(controller -> {
                    TopicWatch.Tally tally = scene.tally(controller);
                    out.println("at the end over MQTT: " + controller + ", " + tally.good() + " of " + tally.all()
                            + " points good");
                }));
        out.flush();
    }
}
