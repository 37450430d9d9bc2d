package burnerbridge.line.wire;

import burnerbridge.model.BridgeClock;
import java.io.IOException;
import java.time.Duration;
import java.util.Arrays;

/** The bytes that come after one request, in whatever pieces, until its deadline. */
public final class Reception {
    /** An echo and the longest frame of any framing, with room for what does not belong. */
    private static final int MOST = 600;

    private final Wire wire;
    private final Deadline deadline;
    private final BridgeClock clock;
    private final byte[] bytes = new byte[MOST];
    private int count;

    public Reception(Wire wire, Deadline deadline, BridgeClock clock) {
        this.wire = wire;
        this.deadline = deadline;
        this.clock = clock;
    }

    /** Reads no further than to {@code wanted} bytes since the request; says whether so many came in time. */
    public boolean has(int wanted) throws IOException {
        while (count < wanted && !deadline.isOver(clock)) {
            count += wire.read(bytes, count, wanted - count, deadline);
        }
        return count >= wanted;
    }

    /** Whether something is there, or comes within a moment. */
    public boolean begins() throws IOException {
        count += wire.read(bytes, count, 1, Deadline.after(Duration.ZERO, clock));
        return count > 0;
    }

    /** Reads on until nothing has come for a while, so that it can be told what it was. */
    public void gather(Duration quiet) throws IOException {
        Deadline pause = Deadline.after(quiet, clock);
        while (count < MOST && !pause.isOver(clock) && !deadline.isOver(clock)) {
            int read = wire.read(bytes, count, MOST - count, pause);
            count += read;
            pause = read > 0 ? Deadline.after(quiet, clock) : pause;
        }
    }

    public int count() {
        return count;
    }

    /** The byte at a place that has come, 0 to 255. */
    public int at(int place) {
        return bytes[place] & 0xFF;
    }

    public byte[] bytes(int from, int to) {
        return Arrays.copyOfRange(bytes, from, to);
    }

    public byte[] all() {
        return bytes(0, count);
    }
}
