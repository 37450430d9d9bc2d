package burnerbridge.benchmark.start;

import burnerbridge.benchmark.measure.Aim;
import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Figures;
import java.io.PrintWriter;
import java.util.Locale;

/** The starts as a table of Markdown, and as figures. */
final class StartReport {
    private static final Aim ONE_SECOND = Aim.atMost(1000);
    private static final Aim MEMORY = Aim.atMost(96);
    private static final String IDLE = "Java that does nothing";

    private final PrintWriter out;
    private final Figures figures;

    StartReport(PrintWriter out, Figures figures) {
        this.out = out;
        this.figures = figures;
    }

    void say(String line) {
        out.println(line);
        out.flush();
    }

    void begin() {
        say("");
        say("| Java, options | first good value by MQTT, ms | by BACnet, ms | Java that does nothing, ms"
                + " | resident, MiB | of it in no file | Java that does nothing, resident, MiB |");
        say("|---|---|---|---|---|---|---|");
    }

    void row(String version, Flags flags, Started seen) {
        say(String.format(
                Locale.ROOT,
                "| %s, %s | %s | %s | %s | %.0f | %.0f | %.0f |",
                version,
                flags.title(),
                seen.byMqtt().range(0),
                seen.byBacnet().range(0),
                seen.idleMillis().range(0),
                seen.residentMib(),
                seen.ownMib(),
                seen.idleMib()));
        tellFigures("Java " + version + ", " + flags.title() + ": ", seen);
    }

    private void tellFigures(String title, Started seen) {
        double idle = seen.idleMillis().median();
        figures.add(Figure.range(title + "from process to first good value by MQTT", "ms", seen.byMqtt())
                .beside(IDLE, idle)
                .aiming(ONE_SECOND));
        figures.add(Figure.range(title + "from process to first good value by BACnet", "ms", seen.byBacnet())
                .beside(IDLE, idle)
                .aiming(ONE_SECOND));
        if (!Double.isNaN(seen.residentMib())) {
            figures.add(Figure.once(title + "resident memory", "MiB", seen.residentMib())
                    .beside(IDLE, seen.idleMib())
                    .aiming(MEMORY));
        }
    }
}
