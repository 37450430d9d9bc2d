package burnerbridge.write;

import burnerbridge.line.LineCounts;
import burnerbridge.line.LineTransport;
import burnerbridge.line.LineWrites;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.WritableLine;
import burnerbridge.line.WriteOutcome;
import burnerbridge.line.WriteTemplate;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import burnerbridge.site.permit.Functions;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Units of one line that count every write frame that reaches them, and behave as a test tells them. */
final class RecordingUnit implements LineTransport, LineWrites {
    /** What a unit does with a write. */
    enum Manner {
        WELL,
        APPLIES_AND_IS_SILENT,
        IGNORES_AND_IS_SILENT,
        ACCEPTS_AND_IGNORES,
        REFUSES,
        APPLIES_LATE,
        NOT_SENT
    }

    /** A write frame as it came. */
    record Frame(WriteTemplate template, Registers data) {}

    final List<Frame> frames = new ArrayList<>();
    final List<ReadRequest> reads = new ArrayList<>();
    Manner manner = Manner.WELL;
    boolean answers = true;
    long connections = 1;
    boolean connected = true;
    /** For how long the line could still take a late reply for that to a write. */
    Duration writesIn = Duration.ZERO;
    /** Done when a write is made into bytes, which is after it had its turn and before it leaves. */
    Runnable whileEncoding = () -> {};
    /** Done right before a write is sent. */
    Runnable beforeWrite = () -> {};

    private final HandClock clock;
    private final Map<Place, Integer> words = new HashMap<>();
    private Optional<Frame> late = Optional.empty();
    private int readsUntilLate;

    private record Place(UnitId unit, RegisterTable table, int address) {}

    RecordingUnit(HandClock clock) {
        this.clock = clock;
    }

    WritableLine line() {
        return new WritableLine(this, this);
    }

    void set(int unit, RegisterTable table, int address, int word) {
        words.put(new Place(new UnitId(unit), table, address), word);
    }

    int get(int unit, RegisterTable table, int address) {
        return words.getOrDefault(new Place(new UnitId(unit), table, address), 0);
    }

    /** Gives another its registers and what was counted. */
    void goOnIn(RecordingUnit next) {
        next.words.putAll(words);
        next.frames.addAll(frames);
    }

    @Override
    public Outcome read(ReadRequest request) {
        reads.add(request);
        if (!connected) {
            connected = true;
            connections++;
        }
        clock.forward(Duration.ofMillis(10));
        if (!answers) {
            return new Outcome.Silent(clock.now());
        }
        if (late.isPresent() && readsUntilLate-- == 0) {
            apply(late.get());
            late = Optional.empty();
        }
        int[] data = new int[request.count()];
        for (int i = 0; i < data.length; i++) {
            data[i] = get(request.unit().number(), request.table(), request.first() + i);
        }
        return new Outcome.Answered(Registers.of(data), clock.now());
    }

    @Override
    public byte[] encode(WriteTemplate template, Registers data) {
        whileEncoding.run();
        return new byte[] {(byte) template.unit().number(), (byte) template.function(), (byte) data.word(0)};
    }

    @Override
    public WriteOutcome write(WriteTemplate template, Registers data) {
        if (manner == Manner.NOT_SENT || !connected) {
            return new WriteOutcome.NotSent("there is no connection");
        }
        beforeWrite.run();
        Frame frame = new Frame(template, data);
        frames.add(frame);
        clock.forward(Duration.ofMillis(10));
        switch (manner) {
            case APPLIES_AND_IS_SILENT -> {
                apply(frame);
                return new WriteOutcome.Unknown("no reply", clock.now());
            }
            case IGNORES_AND_IS_SILENT -> {
                return new WriteOutcome.Unknown("no reply", clock.now());
            }
            case REFUSES -> {
                return new WriteOutcome.Refused(3, clock.now());
            }
            case ACCEPTS_AND_IGNORES -> {}
            case APPLIES_LATE -> {
                late = Optional.of(frame);
                readsUntilLate = 1;
            }
            default -> apply(frame);
        }
        return new WriteOutcome.Accepted(clock.now());
    }

    private void apply(Frame frame) {
        WriteTemplate template = frame.template();
        for (int i = 0; i < frame.data().count(); i++) {
            Place place = new Place(
                    template.unit(), template.range().table(), template.range().first() + i);
            int before = words.getOrDefault(place, 0);
            words.put(
                    place,
                    template.function() == Functions.MASK
                            ? before & ~template.mask() | frame.data().word(i) & template.mask()
                            : frame.data().word(i));
        }
    }

    @Override
    public long readyAt(WriteTemplate template, long now) {
        return now + writesIn.toNanos();
    }

    @Override
    public long readyAt(ReadRequest request, long now) {
        return now;
    }

    @Override
    public boolean isConnected() {
        return connected;
    }

    @Override
    public long connections() {
        return connections;
    }

    @Override
    public LineCounts counts() {
        throw new UnsupportedOperationException();
    }

    @Override
    public LineCounts counts(UnitId unit) {
        throw new UnsupportedOperationException();
    }

    @Override
    public List<Finding> findings() {
        return List.of();
    }

    @Override
    public void close() {}
}
