package burnerbridge.benchmark.mqtt;

import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.measure.Spread;
import burnerbridge.benchmark.program.Mosquitto;
import burnerbridge.benchmark.program.Program;
import burnerbridge.benchmark.program.TemporaryFolder;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Points that change all at once, and one by one, in turn with mosquitto's own publisher on one broker. */
@Command(
        name = "mqtt",
        mixinStandardHelpOptions = true,
        description = "How fast values reach a subscriber, beside mosquitto_pub. Needs mosquitto, mosquitto-clients"
                + " and bash.")
public final class MqttCommand implements Runnable {
    private static final Duration TO_SUBSCRIBE = Duration.ofMillis(500);
    private static final Duration BETWEEN = Duration.ofMillis(2);
    private static final String THEIRS = "mosquitto_pub -l";
    /** As long as a message of the plant. */
    private static final String LINE =
            "{\"value\":12345.6,\"unit\":\"%\",\"quality\":\"good\",\"readAt\":\"2026-11-25T08:00:00.250Z\","
                    + "\"sentAt\":\"2026-11-25T08:00:00.310Z\",\"validFor\":10799,\"sequence\":118}";

    @Option(
            names = "--points",
            defaultValue = "10000",
            description = "Points, and messages a round (${DEFAULT-VALUE}).")
    private int points;

    @Option(names = "--rounds", defaultValue = "20", description = "Measured rounds of each side (${DEFAULT-VALUE}).")
    private int rounds;

    @Option(names = "--warm", defaultValue = "10", description = "Rounds before them (${DEFAULT-VALUE}).")
    private int warm;

    @Option(names = "--single", defaultValue = "5000", description = "Changes one by one (${DEFAULT-VALUE}).")
    private int single;

    @Option(names = "--receive-maximum", defaultValue = "20", description = "Of the broker (${DEFAULT-VALUE}).")
    private int receiveMaximum;

    @Mixin
    private final Figures figures = new Figures();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final MachineClock clock = new MachineClock();
    private final List<Double> ourRates = new ArrayList<>();
    private final List<Double> ourProcessor = new ArrayList<>();
    private final List<Double> theirRates = new ArrayList<>();
    private final List<Double> theirProcessor = new ArrayList<>();

    @Override
    public void run() {
        PrintWriter out = spec.commandLine().getOut();
        say(out, Machine.text());
        say(out, Machine.java());
        say(
                out,
                "MQTT 5, quality of service 1, receive maximum " + receiveMaximum + "; messages a round: " + points
                        + "; rounds of each side: " + rounds + " after " + warm + " unmeasured, in turn");
        try (TemporaryFolder folder = TemporaryFolder.create();
                Mosquitto broker = Mosquitto.start(folder.path(), receiveMaximum);
                Plant plant = new Plant(points, broker.port(), clock)) {
            Path lines = lines(folder.path());
            plant.start();
            // What it says of points that were not read yet is over by then.
            clock.pause(TO_SUBSCRIBE.multipliedBy(6));
            try (Program subscriber = broker.subscriber(Plant.POINTS + "+");
                    Program other = broker.subscriber("other/+")) {
                clock.pause(TO_SUBSCRIBE);
                contest(broker, plant, subscriber, other, lines);
                tellRates(out);
                tellDelays(out, delays(plant, subscriber));
            }
        }
    }

    private Path lines(Path folder) {
        try {
            return Files.write(folder.resolve("lines"), Collections.nCopies(points, LINE));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void contest(Mosquitto broker, Plant plant, Program subscriber, Program other, Path lines) {
        for (int round = -warm; round < rounds; round++) {
            ours(plant, subscriber, round >= 0);
            theirs(broker, other, lines, round >= 0);
        }
    }

    /** From the first change to the last message at the subscriber. */
    private void ours(Plant plant, Program subscriber, boolean counts) {
        long processor = processorNanos();
        long begin = clock.ticks();
        plant.changeAll();
        awaitLines(subscriber);
        if (counts) {
            ourRates.add(points / ((clock.ticks() - begin) / 1e9));
            ourProcessor.add((processorNanos() - processor) / 1e3 / points);
        }
    }

    private void theirs(Mosquitto broker, Program subscriber, Path lines, boolean counts) {
        long begin = clock.ticks();
        try (Program publisher = broker.publisher("other/topic", lines)) {
            awaitLines(subscriber);
            long end = clock.ticks();
            String[] seconds = publisher.line().split(" ");
            if (counts) {
                theirRates.add(points / ((end - begin) / 1e9));
                theirProcessor.add((Double.parseDouble(seconds[0]) + Double.parseDouble(seconds[1])) * 1e6 / points);
            }
        }
    }

    private void awaitLines(Program subscriber) {
        for (int i = 0; i < points; ) {
            i += subscriber.line().startsWith("{\"value\":") ? 1 : 0;
        }
    }

    /** Of changes that come one by one, from the change to the subscriber, in nanoseconds. */
    private long[] delays(Plant plant, Program subscriber) {
        long[] delays = new long[single];
        for (int i = 0; i < single; i++) {
            long begin = clock.ticks();
            String expected = plant.change(i % points);
            while (!subscriber.line().startsWith(expected)) {
                // The link says every half minute that it is as it was.
            }
            delays[i] = clock.ticks() - begin;
            clock.pause(BETWEEN);
        }
        return delays;
    }

    /** Of this process, user and system, in steps of the kernel's tick. */
    private static long processorNanos() {
        return ProcessHandle.current()
                .info()
                .totalCpuDuration()
                .orElse(Duration.ZERO)
                .toNanos();
    }

    private void tellRates(PrintWriter out) {
        say(out, "");
        say(
                out,
                "All points change at once; until the last message is at a subscriber. Median (least..most) of rounds;");
        say(out, "processor time of ours includes making the changes and reading the subscriber's lines.");
        say(out, "");
        say(out, "| | messages a second | processor time a message, µs |");
        say(out, "|---|---|---|");
        row(out, "ours", ourRates, ourProcessor);
        row(out, THEIRS, theirRates, theirProcessor);
        figures.add(Figure.range(points + " points that change at once: messages a second", "", spread(ourRates))
                .beside(THEIRS, spread(theirRates).median()));
        figures.add(Figure.range("processor time of a message", "µs", spread(ourProcessor))
                .beside(THEIRS, spread(theirProcessor).median()));
    }

    private static void row(PrintWriter out, String side, List<Double> rates, List<Double> processor) {
        say(
                out,
                "| " + side + " | " + spread(rates).range(0) + " | "
                        + spread(processor).range(1) + " |");
    }

    private static Spread spread(List<Double> values) {
        return Spread.of(values.stream().mapToDouble(Double::doubleValue).toArray());
    }

    private void tellDelays(PrintWriter out, long[] delays) {
        long[] sorted = delays.clone();
        Arrays.sort(sorted);
        say(out, "");
        say(
                out,
                String.format(
                        Locale.ROOT,
                        "From a change to a subscriber, one by one, %d changes: median %.2f ms, p99 %.2f ms, most %.2f ms",
                        sorted.length,
                        Spread.of(delays).median() / 1e6,
                        sorted[(int) Math.ceil(sorted.length * 0.99) - 1] / 1e6,
                        sorted[sorted.length - 1] / 1e6));
        figures.add(Figure.quartiles(
                "from a change to a subscriber, one by one",
                "ms",
                Spread.of(delays).times(1e-6)));
    }

    private static void say(PrintWriter out, String line) {
        out.println(line);
        out.flush();
    }
}
