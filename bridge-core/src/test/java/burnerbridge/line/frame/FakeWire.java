package burnerbridge.line.frame;

import burnerbridge.line.wire.Deadline;
import burnerbridge.line.wire.Wire;
import burnerbridge.model.HandClock;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;

/** A wire whose bytes come in the pieces that a test says; where there are none, the clock moves on. */
public final class FakeWire implements Wire {
    private final HandClock clock;
    private final Deque<byte[]> pieces = new ArrayDeque<>();

    public FakeWire(HandClock clock) {
        this.clock = clock;
    }

    public FakeWire brings(byte[] bytes) {
        pieces.add(bytes);
        return this;
    }

    /** Brings bytes in pieces of random lengths. */
    FakeWire bringsInPieces(byte[] bytes, java.util.Random random) {
        int from = 0;
        while (from < bytes.length) {
            int to = Math.min(bytes.length, from + 1 + random.nextInt(4));
            pieces.add(Arrays.copyOfRange(bytes, from, to));
            from = to;
        }
        return this;
    }

    @Override
    public void open() {}

    @Override
    public int waiting() {
        return pieces.stream().mapToInt(piece -> piece.length).sum();
    }

    @Override
    public void send(byte[] frame) {}

    @Override
    public int read(byte[] buffer, int from, int most, Deadline deadline) {
        byte[] piece = pieces.poll();
        if (piece == null) {
            clock.forward(Duration.ofMillis(deadline.sliceMillis(clock)));
            return 0;
        }
        int read = Math.min(most, piece.length);
        System.arraycopy(piece, 0, buffer, from, read);
        if (read < piece.length) {
            pieces.addFirst(Arrays.copyOfRange(piece, read, piece.length));
        }
        return read;
    }

    @Override
    public boolean drain() {
        pieces.clear();
        return true;
    }

    @Override
    public void close() {}
}
