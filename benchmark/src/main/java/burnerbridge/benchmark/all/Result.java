package burnerbridge.benchmark.all;

import burnerbridge.benchmark.measure.FigureTable;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * All that was measured, as Markdown.
 *
 * @param call how it was called
 * @param at when it began
 * @param machine what it ran on
 * @param java all of those that measured
 */
record Result(String call, Length length, Instant at, String machine, String java, List<Outcome> outcomes) {
    private static final double BUSY = 0.1;
    private static final String BUSY_WARNING =
            "**The machine was busy**: before at least one run other programs had more"
                    + " than a tenth of its processors (the last table says when), so that times are the machine's as much as ours.";
    private static final DateTimeFormatter MINUTE =
            DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

    Result {
        outcomes = List.copyOf(outcomes);
    }

    List<String> lines() {
        List<String> lines = new ArrayList<>();
        lines.add("`" + call + "`, begun " + MINUTE.format(at) + " UTC on " + machine + "; " + java + ".");
        if (!length.warning().isEmpty()) {
            lines.addAll(List.of("", length.warning()));
        }
        if (outcomes.stream().anyMatch(outcome -> outcome.busyShare() > BUSY)) {
            lines.addAll(List.of("", BUSY_WARNING));
        }
        lines.add("");
        lines.addAll(FigureTable.lines(
                outcomes.stream().flatMap(outcome -> outcome.figures().stream()).toList()));
        lines.add("");
        lines.add("A ratio is of the medians, ours to the reference's, in the same run.");
        lines.add("");
        lines.addAll(runs());
        return lines;
    }

    private List<String> runs() {
        List<String> lines = new ArrayList<>(List.of(
                "| run | called with | load average before it | of all processors busy with others before it, %"
                        + " | took, s | |",
                "|---|---|---|---|---|---|"));
        outcomes.forEach(outcome -> lines.add(row(outcome)));
        return lines;
    }

    private static String row(Outcome outcome) {
        return String.format(
                Locale.ROOT,
                "| %s | %s | %s | %.0f | %d | %s |",
                outcome.measurement().name(),
                arguments(outcome),
                outcome.load(),
                100 * outcome.busyShare(),
                outcome.took().toSeconds(),
                outcome.isWell() ? "well" : "**" + outcome.trouble() + "**");
    }

    /** Which program runs Java is of this machine alone. */
    private static String arguments(Outcome outcome) {
        List<String> words = new ArrayList<>(outcome.arguments());
        for (int at = words.indexOf("--java"); at >= 0; at = words.indexOf("--java")) {
            words.subList(at, at + 2).clear();
        }
        return words.isEmpty() ? "" : "`" + String.join(" ", words) + "`";
    }
}
