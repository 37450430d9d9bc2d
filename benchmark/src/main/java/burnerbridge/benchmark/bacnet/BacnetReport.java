package burnerbridge.benchmark.bacnet;

import burnerbridge.benchmark.bacnet.client.Delays;
import burnerbridge.benchmark.bacnet.client.Service;
import burnerbridge.benchmark.bacnet.device.Side;
import burnerbridge.benchmark.measure.Spread;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.ToDoubleFunction;

/** Prints what was seen as tables of Markdown. */
final class BacnetReport {
    /** Half of what the library's transport sleeps where it missed that there is work. */
    private static final Duration LATE = Duration.ofMillis(25);

    private static final int MEDIAN = 500;
    private static final int P99 = 990;
    private static final int MOST = 1000;

    private final PrintWriter out;
    private final BacnetFigures figures;

    BacnetReport(PrintWriter out, BacnetFigures figures) {
        this.out = out;
        this.figures = figures;
    }

    void say(String line) {
        out.println(line);
        out.flush();
    }

    void beginReads() {
        say("");
        say("Reads. Requests a second: median (least..most) of rounds; the ratio is of each pair of rounds.");
        say("");
        say("| objects | service | at once | side | requests/s | ours to the library's | delay, µs: median, p99"
                + " | most, ms | over 25 ms | processor time each, µs | lost |");
        say("|---|---|---|---|---|---|---|---|---|---|---|");
    }

    void reads(int objects, Service service, int atOnce, Map<Side, ReadRounds> seen) {
        ReadRounds ours = Objects.requireNonNull(seen.get(Side.OURS));
        ReadRounds library = Objects.requireNonNull(seen.get(Side.LIBRARY));
        seen.forEach((side, rounds) -> say(row(
                objects,
                service.title(),
                atOnce,
                side.title(),
                rounds.rate().range(0),
                side == Side.OURS ? ours.ratio(library).range(2) : "",
                micros(rounds.delays()),
                millis(rounds.delays().within(MOST)),
                late(rounds.delays()),
                number(1, rounds.processorMicrosEach()),
                rounds.lost())));
        figures.reads(objects + " objects: " + service.title() + ", " + atOnce + " at once", ours, library);
    }

    void beginChanges() {
        say("");
        say("Changes of value. All objects change at once; until the last notification. Then one object changes,"
                + " 2 ms apart; from the change to its notification.");
        say("");
        say("| objects | notifications | side | told/s | ours to the library's | told of changes"
                + " | processor time each, µs | delay, µs: median, p99 | most, ms | over 25 ms |");
        say("|---|---|---|---|---|---|---|---|---|---|");
    }

    void changes(int objects, boolean confirmed, Map<Side, ChangeRounds> seen) {
        ChangeRounds ours = Objects.requireNonNull(seen.get(Side.OURS));
        ChangeRounds library = Objects.requireNonNull(seen.get(Side.LIBRARY));
        new EnumMap<>(seen)
                .forEach((side, rounds) -> say(row(
                        objects,
                        confirmed ? "confirmed" : "unconfirmed",
                        side.title(),
                        rounds.rate().range(0),
                        side == Side.OURS ? ours.ratio(library).range(2) : "",
                        rounds.told() + " of " + objects * rounds.rounds(),
                        number(1, rounds.processorMicrosEach()),
                        micros(rounds.delays()),
                        millis(rounds.delays().within(MOST)),
                        late(rounds.delays()))));
        figures.changes(objects + (confirmed ? " objects: confirmed" : " objects: unconfirmed"), ours, library);
    }

    void beginStarts() {
        say("");
        say("Starts. Median (least..most).");
        say("");
        say("| objects | side | making the device, ms | process to first reply, ms | resident, MiB |");
        say("|---|---|---|---|---|");
    }

    void starts(int objects, Map<Side, List<StartSeen>> seen) {
        seen.forEach((side, all) -> say(row(
                objects,
                side.title(),
                spread(all, start -> start.making().toNanos() / 1e6),
                spread(all, start -> start.whole().toNanos() / 1e6),
                spread(all, StartSeen::residentMib))));
        figures.starts(objects, seen);
    }

    private static String spread(List<StartSeen> all, ToDoubleFunction<StartSeen> figure) {
        return Spread.of(all.stream().mapToDouble(figure).toArray()).range(0);
    }

    private static String row(Object... cells) {
        StringBuilder row = new StringBuilder("|");
        for (Object cell : cells) {
            row.append(' ').append(cell).append(" |");
        }
        return row.toString();
    }

    private static String micros(Delays delays) {
        return number(1, delays.within(MEDIAN) / 1e3) + ", " + number(1, delays.within(P99) / 1e3);
    }

    private static String millis(long nanos) {
        return number(1, nanos / 1e6);
    }

    private static String late(Delays delays) {
        return delays.longerThan(LATE.toNanos()) + " of " + delays.count();
    }

    private static String number(int decimals, double value) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }
}
