package burnerbridge.simulator.demo.screen;

import burnerbridge.simulator.demo.feed.Published;
import burnerbridge.simulator.demo.feed.TopicWatch;
import burnerbridge.simulator.plant.BoilerState;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** All boilers in a line each, then the points of the chosen one: as the plant has them and as they came over MQTT. */
final class LiveView {
    private static final int BAR = 12;
    private static final int WIDE = 76;
    private static final int PROGRESS = 11;
    private static final int LINES_OF_TOLD = 3;

    private final String keys;

    /** @param keys what the keys do */
    LiveView(String keys) {
        this.keys = keys;
    }

    List<Line> lines(Scene scene, Size size) {
        List<Line> head = new ArrayList<>();
        head.add(new Line(title(scene), Tone.STRONG));
        for (int i = 0; i < scene.controllers().size(); i++) {
            head.add(boiler(scene, i, size));
        }
        List<Line> foot = foot(scene, size);
        head.add(columns(scene.chosen(), size));
        BoilerState state = scene.state(scene.chosen());
        // The last row of the terminal stays free, so that nothing scrolls.
        int room = size.rows() - 1 - head.size() - foot.size();
        PlantRow.of(state).stream().limit(Math.max(1, room)).forEach(row -> head.add(point(scene, row, state, size)));
        head.addAll(foot);
        return head;
    }

    private static String title(Scene scene) {
        String bridge = scene.isBrokerRunning() ? "" : " | the broker is stopped";
        String frozen = scene.isFrozen() ? " | the plant stands still" : "";
        return "Quillmere Glasshouses (invented)" + bridge + frozen;
    }

    private static Line boiler(Scene scene, int index, Size size) {
        String name = scene.controllers().get(index);
        BoilerState state = scene.state(name);
        boolean chosen = name.equals(scene.chosen());
        String progress = state.lockout()
                ? padded(state.cause().text(), size.columns() >= WIDE ? BAR + 3 + PROGRESS : PROGRESS)
                : (size.columns() >= WIDE ? "[" + bar(state) + "] " : "") + padded(progress(state), PROGRESS);
        String text = (chosen ? ">" : " ")
                + (index + 1) + " " + padded(name, 9) + padded(state.phase().text(), 18) + progress
                + padded(PlantRow.controlled(state), 9) + tally(scene, name, size);
        return new Line(text, tone(scene, name, state, chosen));
    }

    private static Tone tone(Scene scene, String name, BoilerState state, boolean chosen) {
        if (state.lockout() || scene.link(name).equals("down")) {
            return Tone.BAD;
        }
        return chosen ? Tone.STRONG : Tone.PLAIN;
    }

    /** How many of its points came as good, or that it does not answer the bridge. */
    private static String tally(Scene scene, String name, Size size) {
        TopicWatch.Tally tally = scene.tally(name);
        if (scene.link(name).equals("down")) {
            return "no answer";
        }
        return tally.all() == 0
                ? "not yet"
                : tally.good() + "/" + tally.all() + (size.columns() >= WIDE ? " good" : "");
    }

    /** How far a phase of a set length is; in the others how high the fire burns. */
    private static String bar(BoilerState state) {
        double share = state.phaseLength().isZero()
                ? state.firingRate() / 100
                : (double) state.inPhase().toMillis() / state.phaseLength().toMillis();
        int done = (int) Math.max(0, Math.min(BAR, Math.round(BAR * share)));
        return "#".repeat(done) + ".".repeat(BAR - done);
    }

    private static String progress(BoilerState state) {
        if (!state.phaseLength().isZero()) {
            return state.inPhase().toSeconds() + " of " + state.phaseLength().toSeconds() + " s";
        }
        return state.phase().isFiring()
                ? String.format(Locale.ROOT, "%.0f %%", state.firingRate())
                : "for " + state.inPhase().toSeconds() + " s";
    }

    private static Line columns(String chosen, Size size) {
        return new Line(row(size, chosen, "plant itself", "over MQTT", "", "quality", "age"), Tone.STRONG);
    }

    private static Line point(Scene scene, PlantRow row, BoilerState state, Size size) {
        Optional<Published> message = scene.published(scene.chosen(), row.point());
        String text = row(
                size,
                row.point(),
                row.value().apply(state),
                message.map(LiveView::shownValue).orElse("-"),
                message.map(Published::unit).orElse(""),
                message.map(LiveView::shownQuality).orElse("not yet"),
                message.flatMap(m -> m.age(scene.now())).map(LiveView::seconds).orElse("-"));
        return new Line(text, message.map(m -> Tone.ofQuality(m.quality())).orElse(Tone.PLAIN));
    }

    private static String row(
            Size size, String point, String plant, String mqtt, String unit, String quality, String age) {
        boolean wide = size.columns() >= WIDE;
        int value = wide ? 16 : 12;
        String text = padded(point, 19) + right(plant, value) + " " + right(mqtt, value) + " " + padded(unit, 5);
        return wide ? text + padded(quality, 14) + right(age, 7) : text + " " + quality;
    }

    private List<Line> foot(Scene scene, Size size) {
        List<Line> foot = new ArrayList<>();
        List<String> told = scene.told().isEmpty() ? List.of() : Wrap.at(size.columns() - 1, scene.told());
        for (int i = 0; i < LINES_OF_TOLD; i++) {
            foot.add(new Line(i < told.size() ? told.get(i) : "", Tone.STRONG));
        }
        Wrap.at(size.columns() - 1, keys).forEach(line -> foot.add(Line.plain(line)));
        return foot;
    }

    /** A value that is no longer good stands in brackets. */
    private static String shownValue(Published message) {
        if (!message.value().isEmpty()) {
            return message.value();
        }
        return message.lastGood().isEmpty() ? "-" : "(" + message.lastGood() + ")";
    }

    /** Why it is not good tells more than that it is not. */
    private static String shownQuality(Published message) {
        return message.reason().isEmpty() ? message.quality() : message.reason();
    }

    private static String padded(String text, int width) {
        return text.length() < width ? text + " ".repeat(width - text.length()) : shortened(text, width - 1) + " ";
    }

    private static String right(String text, int width) {
        return text.length() < width ? " ".repeat(width - text.length()) + text : shortened(text, width);
    }

    private static String shortened(String text, int most) {
        return text.length() <= most ? text : text.substring(0, most - 1) + "~";
    }

    private static String seconds(Duration age) {
        double seconds = Math.max(0, age.toMillis() / 1000.0);
        return String.format(Locale.ROOT, seconds < 100 ? "%.1f s" : "%.0f s", seconds);
    }
}
