package burnerbridge.daemon.strict;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.manners.Act;
import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.manners.Mixture;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import java.util.function.Function;
import java.util.stream.LongStream;

/** One device that misbehaves, and the stream of questions that it is asked, both as a seed decides. */
final class Lane implements AutoCloseable {
    /** So many reply time-outs after its request no reply comes any more. */
    private static final int LATEST_REPLY = 5;
    /** One question in so many is the one before it once more. */
    private static final int SAME = 4;

    /** Longer than the silence between frames, and shorter than a reply time-out. */
    private static final Duration TURNAROUND = Duration.ofMillis(15);

    private static final int TRIES_TO_COME_BACK = 5;
    private static final int READS_AFTERWARDS = 20;
    /** Time-outs are short, and the machine may be busy. */
    private static final int MOST_MISSED = 5;

    private final long seed;
    private final AtomicLong generation = new AtomicLong();
    private final FieldDevice device;
    private final Mixture mixture;
    private final Function<Random, Question> questions;
    private final boolean echoes;
    private final Tally tally;
    /** When each generation began. */
    private final NavigableMap<Long, Long> begun = new TreeMap<>();

    /** One that misbehaves in every way. */
    static Lane of(long seed, Door door, boolean echoes, Duration timeout, Tally tally) throws IOException {
        Mixture mixture = Shares.mixture(seed, door.transport(), timeout);
        return new Lane(seed, door, Question::random, mixture, withinReach(mixture, timeout), echoes, tally);
    }

    /** One that is late, on a wire so slow that its replies queue. */
    static Lane slow(long seed, Door door, boolean echoes, Duration timeout, Tally tally) throws IOException {
        Mixture mixture = Shares.late(seed, door.transport(), timeout);
        return new Lane(seed, door, Question::randomLong, mixture, slowlyTurning(mixture), echoes, tally);
    }

    /** Between two replies that queue there is a gap in which a master may take the line for free. */
    private static Manners slowlyTurning(Manners manners) {
        return exchange -> {
            List<Act> acts = new ArrayList<>(List.of(new Act.Pause(TURNAROUND)));
            acts.addAll(manners.toward(exchange));
            return acts;
        };
    }

    private Lane(
            long seed,
            Door door,
            Function<Random, Question> questions,
            Mixture mixture,
            Manners manners,
            boolean echoes,
            Tally tally)
            throws IOException {
        this.seed = seed;
        this.questions = questions;
        this.mixture = mixture;
        this.echoes = echoes;
        this.tally = tally;
        this.device = new FieldDevice(
                door, Map.of(1, new CodedUnit(1, generation), 2, new CodedUnit(2, generation)), UnknownUnit.SILENT);
        behave(manners);
        device.start();
    }

    private void behave(Manners manners) {
        device.behave(echoes ? behindAnEcho(manners) : manners);
    }

    /** The master's adapter hears what it sends, whatever becomes of it. */
    private static Manners behindAnEcho(Manners manners) {
        return exchange -> {
            List<Act> acts = new ArrayList<>(List.of(exchange.send(exchange.request())));
            acts.addAll(manners.toward(exchange));
            return acts;
        };
    }

    /** Nobody could remember a request for ever: what has waited for so long that it would be too late is lost. */
    private static Manners withinReach(Manners manners, Duration timeout) {
        Duration most = timeout.multipliedBy(Shares.LATEST);
        return exchange -> exchange.age().compareTo(most) > 0 ? List.of() : manners.toward(exchange);
    }

    FieldDevice device() {
        return device;
    }

    /** Asks so many questions, or until it is enough. */
    void ask(Master master, int times, BooleanSupplier enough) {
        Random dice = new Random(seed);
        Question question = questions.apply(dice);
        for (int i = 0; i < times && !enough.getAsBoolean(); i++) {
            question = dice.nextInt(SAME) == 0 ? question : questions.apply(dice);
            ask(master, question);
        }
        tally.played(mixture);
    }

    private boolean ask(Master master, Question question) {
        begun.put(System.nanoTime(), generation.get() + 1);
        long now = generation.incrementAndGet();
        Optional<Master.Taken> taken = master.ask(question);
        tally.count(taken.isPresent());
        taken.ifPresent(values -> check(question, now, values));
        return taken.isPresent();
    }

    /** No value may be older than it is said to be. */
    private void check(Question question, long now, Master.Taken taken) {
        int[] got = taken.values();
        long oldest = Objects.requireNonNull(begun.floorEntry(taken.askedAt())).getValue();
        if (LongStream.rangeClosed(oldest, now).noneMatch(then -> isOf(question, then, got))) {
            tally.wrong("seed " + seed + ", question " + now + ": " + question + ": was " + hex(got) + ", is "
                    + hex(CodedUnit.values(question, now)) + "; the device's last: " + mixture.last());
        } else if (oldest < now) {
            tally.countEarlier();
        }
    }

    /** Of too few or too many values, those that are there. */
    private static boolean isOf(Question question, long then, int[] got) {
        int[] right = CodedUnit.values(question, then);
        int common = Math.min(got.length, right.length);
        return Arrays.equals(Arrays.copyOf(got, common), Arrays.copyOf(right, common));
    }

    private static String hex(int[] values) {
        StringBuilder hex = new StringBuilder();
        for (int value : values) {
            hex.append(hex.isEmpty() ? "" : " ").append(HexFormat.of().toHexDigits((short) value));
        }
        return hex.toString();
    }

    /**
     * What is wrong with a line whose device behaves from now on, when what was under way is over: it must be
     * read again and again. Empty where nothing is.
     */
    Optional<String> troubleAfterwards(Master master, Duration timeout) {
        behave(Manners.WELL);
        LockSupport.parkNanos(timeout.multipliedBy(LATEST_REPLY).toNanos());
        Question question = questions.apply(new Random(seed));
        int tries = 1;
        while (!ask(master, question)) {
            if (++tries > TRIES_TO_COME_BACK) {
                return Optional.of("seed " + seed + ": not answered at all");
            }
        }
        List<String> missed = new ArrayList<>();
        for (int i = 1; i <= READS_AFTERWARDS; i++) {
            if (!ask(master, question)) {
                missed.add("read " + i + ": " + master.last());
            }
        }
        return missed.size() <= MOST_MISSED ? Optional.empty() : Optional.of("seed " + seed + ": " + missed);
    }

    @Override
    public void close() {
        device.close();
    }
}
