package burnerbridge.daemon.explain;

import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.Stamp;
import java.io.PrintWriter;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** An explanation for people: one screen, with each place where a cause can be, also where nothing is wrong. */
public final class ExplanationText {
    private static final int WIDTH = 79;
    private static final int MARGIN = 10;
    private static final int USUAL_MOST = 3;
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss 'UTC'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private final Explanation explanation;
    private final int most;

    /** @param all whether nothing is left out, however long it gets */
    public ExplanationText(Explanation explanation, boolean all) {
        this.explanation = explanation;
        this.most = all ? Integer.MAX_VALUE : USUAL_MOST;
    }

    /** What each place is, beside its word. */
    private static String meaning(Place place) {
        return switch (place) {
            case BURNER -> "the controllers and what hangs on them";
            case CABLE -> "wires, plugs, adapters";
            case NETWORK -> "addresses, switches, broadcasts";
            case BROKER -> "the MQTT broker and the way to it";
            case BRIDGE -> "this program and its box";
            case SITE -> "what a person wrote or has to do";
        };
    }

    public void print(PrintWriter out) {
        out.println("site " + explanation.site() + ", " + explanation.origin());
        out.println(summary());
        for (Place place : Place.values()) {
            out.println();
            List<Trouble> here = explanation.at(place);
            out.println(pad(place.word()) + meaning(place) + (here.isEmpty() ? ": nothing is wrong" : ""));
            here.stream().limit(most).forEach(trouble -> print(trouble, out));
            if (here.size() > most) {
                out.println(" ".repeat(MARGIN) + "and " + (here.size() - most) + " more, with --all");
            }
        }
    }

    private String summary() {
        if (explanation.troubles().isEmpty()) {
            return "Nothing is wrong, as far as can be seen.";
        }
        long wrong = explanation.wrong();
        long notices = explanation.notices();
        String state = explanation.state();
        return Character.toUpperCase(state.charAt(0)) + state.substring(1) + ": "
                + (wrong == 1 ? "1 thing is wrong" : wrong + " things are wrong")
                + (notices == 0 ? "" : ", " + notices + (notices == 1 ? " is" : " are") + " worth knowing") + ".";
    }

    private static void print(Trouble trouble, PrintWriter out) {
        String mark = trouble.weight() == Weight.NOTICE ? "- " : "! ";
        Stamp since = trouble.since();
        String seen = trouble.about() + ": " + trouble.seen()
                + (since == null ? "" : " (since " + TIME.format(since.wall()) + ")");
        print(mark, seen, out);
        if (!trouble.lookAt().isEmpty()) {
            print("  ", "Look at " + trouble.lookAt() + ".", out);
        }
    }

    private static void print(String mark, String text, PrintWriter out) {
        List<String> lines = wrapped(text, WIDTH - MARGIN - mark.length());
        for (int i = 0; i < lines.size(); i++) {
            out.println(" ".repeat(MARGIN) + (i == 0 ? mark : "  ") + lines.get(i));
        }
    }

    private static List<String> wrapped(String text, int width) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.split(" ")) {
            if (line.length() > 0 && line.length() + 1 + word.length() > width) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }

    private static String pad(String word) {
        return word + " ".repeat(Math.max(1, MARGIN - word.length()));
    }
}
