package burnerbridge.poll.agenda;

import burnerbridge.line.LineTransport;
import burnerbridge.model.Stamp;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.ReadBlock;
import burnerbridge.poll.pace.Paces;
import burnerbridge.poll.pace.Phases;
import burnerbridge.poll.pace.Rhythm;
import burnerbridge.poll.pace.Share;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.UnitId;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The controllers of one line that it reads. */
public final class Controllers {
    /** The probes of all lost controllers together take one part in so many of the line's time. */
    static final int PROBES_ONE_IN = 50;

    /** So much of that share is saved up that a controller that was away for a moment is found at once. */
    private static final Duration PROBES_SAVED_FOR = Duration.ofMinutes(5);

    private final LinePlan plan;
    private final Controller.LineParts parts;
    private final ValueTable table;
    private final LineLog log;
    private final Map<Integer, Controller> byOrdinal = new LinkedHashMap<>();

    public Controllers(LinePlan plan, LineTransport transport, ValueTable table, LineLog log, Paces paces, long now) {
        this.plan = plan;
        this.parts = new Controller.LineParts(
                transport, plan.line().replyTimeout(), new Share(PROBES_ONE_IN, PROBES_SAVED_FOR, now), paces);
        this.table = table;
        this.log = log;
        Map<Duration, Long> counts =
                plan.blocks().stream().collect(Collectors.groupingBy(ReadBlock::every, Collectors.counting()));
        Map<Duration, Integer> ranks = new HashMap<>();
        int number = 0;
        for (ReadBlock block : plan.blocks()) {
            Controller controller = of(block.controller(), now);
            int rank = ranks.merge(block.every(), 1, Integer::sum) - 1;
            controller.add(new Schedule(block, number++, controller, rhythm(block, rank, counts, now)));
        }
    }

    private Controller of(ControllerDefinition definition, long now) {
        return byOrdinal.computeIfAbsent(
                definition.ordinal(),
                ordinal -> new Controller(
                        new ControllerHealth(definition, table, log, this::longestProbePause), parts, now));
    }

    private Rhythm rhythm(ReadBlock block, int rank, Map<Duration, Long> counts, long now) {
        long of = Objects.requireNonNull(counts.get(block.every()));
        int lineNumber = plan.blocks().get(0).controller().ordinal();
        Duration phase = Phases.of(block.every(), rank, of, lineNumber);
        return new Rhythm(block.every(), phase, block.isOnce(), now);
    }

    public Collection<Controller> all() {
        return byOrdinal.values();
    }

    /** Empty where nothing of it is read. */
    public Optional<Controller> find(ControllerDefinition definition) {
        return Optional.ofNullable(byOrdinal.get(definition.ordinal()));
    }

    /** Those that are lost. */
    public List<Controller> lost() {
        return all().stream().filter(controller -> controller.health().isLost()).toList();
    }

    /** Those of a unit that are lost. */
    public List<Controller> lost(UnitId unit) {
        return lost().stream()
                .filter(controller -> controller.definition().unit().equals(unit))
                .toList();
    }

    /** All reads as they are now. */
    public List<ReadBlock> blocks() {
        return reads().map(read -> read.block()).toList();
    }

    /** A tick of a turn of each read of an interval. */
    public List<Long> turns(Duration every) {
        return reads().filter(read ->
                        read.block().every().equals(every) && !read.block().isOnce())
                .map(read -> read.rhythm().turn())
                .toList();
    }

    private Stream<Schedule> reads() {
        return all().stream().flatMap(controller -> controller.reads().stream());
    }

    /**
     * Half of what the share of all lost controllers leaves for each, so that they take turns: each waits for the
     * others rather than for its own pause.
     */
    private long longestProbePause() {
        long lost = all().stream()
                .filter(controller -> controller.health().isLost())
                .count();
        return plan.line().replyTimeout().toNanos() * PROBES_ONE_IN / 2 * Math.max(1, lost);
    }

    /** Whether any is silent and not lost yet. */
    public boolean isAnySuspect() {
        return all().stream().anyMatch(controller -> controller.health().isSuspect());
    }

    /** One was found again; what took it away may have taken others, so that they are asked soon. */
    public void probeSoon(long now) {
        all().forEach(controller -> controller.health().probeSoon(now));
    }

    public void lineDown(String detail, Stamp now) {
        all().forEach(controller -> controller.health().lineDown(detail, now));
    }
}
