package burnerbridge.benchmark.bacnet;

import burnerbridge.benchmark.bacnet.client.Asker;
import burnerbridge.benchmark.bacnet.client.Delays;
import burnerbridge.benchmark.bacnet.client.Service;
import burnerbridge.benchmark.bacnet.client.Watcher;
import burnerbridge.benchmark.bacnet.device.Device;
import burnerbridge.benchmark.bacnet.device.ResidentMemory;
import burnerbridge.benchmark.bacnet.device.Side;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.ChildOptions;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Reads, changes of value and starts of our device, in turn with those of the library alone. */
@Command(
        name = "bacnet",
        mixinStandardHelpOptions = true,
        description = "How fast reads are answered and changes told, beside the library without our port, maps and"
                + " objects.")
public final class BacnetCommand implements Runnable {
    private static final List<Side> SIDES = List.of(Side.OURS, Side.LIBRARY);

    @Option(
            names = "--objects",
            split = ",",
            defaultValue = "30,10000",
            description = "Objects of a device, one comparison for each (${DEFAULT-VALUE}).")
    private List<Integer> objects = List.of();

    @Option(
            names = "--at-once",
            split = ",",
            defaultValue = "1,16",
            description = "Requests on their way at once (${DEFAULT-VALUE}).")
    private List<Integer> atOnce = List.of();

    @Option(names = "--rounds", defaultValue = "10", description = "Measured rounds of each side (${DEFAULT-VALUE}).")
    private int rounds;

    @Option(names = "--warm", defaultValue = "4", description = "Rounds before them (${DEFAULT-VALUE}).")
    private int warm;

    @Option(names = "--millis", defaultValue = "1000", description = "A round of reads (${DEFAULT-VALUE}).")
    private int millis;

    @Option(names = "--single", defaultValue = "1000", description = "Changes one by one a round (${DEFAULT-VALUE}).")
    private int single;

    @Option(names = "--starts", defaultValue = "5", description = "Starts of each side (${DEFAULT-VALUE}).")
    private int starts;

    @Mixin
    private final ChildOptions child = new ChildOptions("256m");

    @Mixin
    private final Figures figures = new Figures();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final MachineClock clock = new MachineClock();

    @Override
    public void run() {
        PrintWriter out = spec.commandLine().getOut();
        BacnetReport report = new BacnetReport(out, new BacnetFigures(figures));
        report.say(Machine.text());
        report.say(Machine.java());
        report.say("Devices of Analog Inputs on loopback, each a process with -Xmx" + child.heap()
                + "; rounds of each side: " + rounds + " after " + warm + " unmeasured, in turn");
        reads(report);
        changes(report);
        starts(report);
    }

    private void reads(BacnetReport report) {
        report.beginReads();
        for (int count : objects) {
            try (Device ours = device(Side.OURS, count);
                    Device library = device(Side.LIBRARY, count)) {
                for (Service service : Service.values()) {
                    for (int many : atOnce) {
                        report.reads(count, service, many, contest(List.of(ours, library), service, many));
                    }
                }
            }
        }
    }

    private Map<Side, ReadRounds> contest(List<Device> devices, Service service, int many) {
        Map<Side, ReadRounds> seen = new EnumMap<>(Side.class);
        for (int round = -warm; round < rounds; round++) {
            for (Device device : devices) {
                Duration processor = device.processorTime();
                Asker.Round one = round(device, service, many);
                if (round >= 0) {
                    seen.computeIfAbsent(device.side(), side -> new ReadRounds())
                            .add(one, device.processorTime().minus(processor));
                }
            }
        }
        return seen;
    }

    private Asker.Round round(Device device, Service service, int many) {
        try (Asker asker = new Asker(device.port(), device.objects(), clock)) {
            return asker.ask(service, many, Duration.ofMillis(millis));
        }
    }

    private void changes(BacnetReport report) {
        report.beginChanges();
        for (int count : objects) {
            for (boolean confirmed : new boolean[] {false, true}) {
                changes(report, count, confirmed);
            }
        }
    }

    /** Each with devices of its own, which the subscriptions of the other kind would burden. */
    private void changes(BacnetReport report, int count, boolean confirmed) {
        try (Device ours = device(Side.OURS, count);
                Device library = device(Side.LIBRARY, count);
                Watcher ofOurs = new Watcher(ours, confirmed, clock);
                Watcher ofLibrary = new Watcher(library, confirmed, clock)) {
            ChangeRounds seenOfOurs = new ChangeRounds();
            ChangeRounds seenOfLibrary = new ChangeRounds();
            ofOurs.subscribeToAll();
            ofLibrary.subscribeToAll();
            for (int round = -warm; round < rounds; round++) {
                watch(ofOurs, seenOfOurs, round >= 0);
                watch(ofLibrary, seenOfLibrary, round >= 0);
            }
            report.changes(count, confirmed, Map.of(Side.OURS, seenOfOurs, Side.LIBRARY, seenOfLibrary));
        }
    }

    private void watch(Watcher watcher, ChangeRounds rounds, boolean counts) {
        Watcher.Told told = watcher.all();
        Delays delays = watcher.single(single);
        if (counts) {
            rounds.add(told, delays);
        }
    }

    private void starts(BacnetReport report) {
        report.beginStarts();
        for (int count : objects) {
            Map<Side, List<StartSeen>> seen = new EnumMap<>(Side.class);
            for (int start = 0; start < starts; start++) {
                for (Side side : SIDES) {
                    seen.computeIfAbsent(side, s -> new ArrayList<>()).add(start(side, count));
                }
            }
            report.starts(count, seen);
        }
    }

    private StartSeen start(Side side, int count) {
        long begin = clock.ticks();
        try (Device device = device(side, count);
                Asker asker = new Asker(device.port(), count, clock)) {
            Asker.Round first = asker.ask(Service.READ_PROPERTY, 1, Duration.ZERO);
            if (first.lost() > 0) {
                throw new IllegalStateException("a device says that it is ready and does not answer");
            }
            return new StartSeen(
                    device.start(), Duration.ofNanos(clock.ticks() - begin), ResidentMemory.mib(device.pid()));
        }
    }

    private Device device(Side side, int count) {
        return Device.start(side, count, child);
    }
}
