package burnerbridge.daemon.strict;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
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
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;

/** One device that misbehaves, and the stream of questions that it is asked, both as a seed decides. */
final class Lane implements AutoCloseable {
    /** So many reply time-outs after its request no reply comes any more. */
    private static final int LATEST_REPLY = 5;

    private static final int TRIES_TO_COME_BACK = 5;
    private static final int READS_AFTERWARDS = 20;
    /** Time-outs are short, and the machine may be busy. */
    private static final int MOST_MISSED = 5;

    private final long seed;
    private final AtomicLong generation = new AtomicLong();
    private final FieldDevice device;
    private final Mixture mixture;
    private final Tally tally;

    Lane(long seed, Door door, Duration timeout, Tally tally) throws IOException {
        this.seed = seed;
        this.tally = tally;
        this.mixture = Shares.mixture(seed, door.transport(), timeout);
        this.device = new FieldDevice(
                door, Map.of(1, new CodedUnit(1, generation), 2, new CodedUnit(2, generation)), UnknownUnit.SILENT);
        device.behave(withinReach(mixture, timeout));
        device.start();
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
    void ask(Master master, int questions, BooleanSupplier enough) {
        Random dice = new Random(seed);
        for (int i = 0; i < questions && !enough.getAsBoolean(); i++) {
            ask(master, Question.random(dice));
        }
        tally.played(mixture);
    }

    private boolean ask(Master master, Question question) {
        long now = generation.incrementAndGet();
        Optional<int[]> got = master.ask(question);
        tally.count(got.isPresent());
        got.ifPresent(values -> check(question, now, values));
        return got.isPresent();
    }

    /** Of too few or too many values, those that are there. */
    private void check(Question question, long now, int[] got) {
        int[] right = CodedUnit.values(question, now);
        int common = Math.min(got.length, right.length);
        if (!Arrays.equals(Arrays.copyOf(got, common), Arrays.copyOf(right, common))) {
            tally.wrong("seed " + seed + ", question " + now + ": " + question + ": was " + hex(got) + ", is "
                    + hex(right) + "; the device's last: " + mixture.last());
        }
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
        device.behave(Manners.WELL);
        LockSupport.parkNanos(timeout.multipliedBy(LATEST_REPLY).toNanos());
        Question question = Question.random(new Random(seed));
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
