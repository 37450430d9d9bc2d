package burnerbridge.line.frame;

import burnerbridge.line.Fault;
import burnerbridge.line.Request;
import burnerbridge.line.wire.Reception;
import burnerbridge.line.wire.Silence;
import burnerbridge.line.wire.WireTime;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * RTU frames (MODBUS over Serial Line V1.02, 2.5.1). A reply ends where its request says that it must, and
 * its checksum must hold there; pauses end nothing, since adapters and networks make their own.
 */
public final class RtuFraming implements Framing {
    private final WireTime wireTime;
    private final Silence silence;
    private final boolean echo;

    /** @param echo whether every request comes back before its reply */
    public RtuFraming(WireTime wireTime, Silence silence, boolean echo) {
        this.wireTime = wireTime;
        this.silence = silence;
        this.echo = echo;
    }

    @Override
    public void begins() {
        silence.begins();
    }

    @Override
    public void awaitTurn() {
        silence.await();
    }

    @Override
    public byte[] frame(UnitId unit, byte[] pdu) {
        return RtuFrame.of(unit, pdu);
    }

    @Override
    public Optional<byte[]> opened(byte[] frame) {
        return RtuFrame.opened(frame);
    }

    @Override
    public Duration wireTime(Request request) {
        return wireTime.ofCharacters(RtuFrame.requestBytes(request) + RtuFrame.replyBytes(request));
    }

    @Override
    public Pdu.Content receive(Reception in, byte[] sent, Request request) throws IOException {
        try {
            return echo ? afterEcho(in, sent, request) : reply(in, 0, sent, request);
        } finally {
            silence.begins();
        }
    }

    private Pdu.Content afterEcho(Reception in, byte[] sent, Request request) throws IOException {
        if (in.has(sent.length) && Arrays.equals(in.all(), sent)) {
            return reply(in, sent.length, sent, request);
        }
        in.gather(wireTime.quiet());
        String came = in.count() == 0 ? "nothing" : Pdu.hex(in.all());
        return new Pdu.Content.Wrong(
                Fault.ECHO, "echo is true, but the request " + Pdu.hex(sent) + " did not come back first: " + came);
    }

    private Pdu.Content reply(Reception in, int start, byte[] sent, Request request) throws IOException {
        if (!in.has(start + RtuFrame.HEAD_BYTES)) {
            return in.count() == start ? new Pdu.Content.Nothing() : wrong(in, start, sent, request);
        }
        int length = RtuFrame.length(in.bytes(start, in.count()), request);
        if (length > 0 && in.has(start + length)) {
            byte[] frame = in.bytes(start, start + length);
            boolean mayBeEcho = start == 0 && !Pdu.isRepeated(request) && isBeginningOf(frame, sent);
            if (Crc16.holds(frame, 0, length) && !mayBeEcho) {
                return Pdu.decode(request, RtuFrame.pdu(frame));
            }
        }
        return wrong(in, start, sent, request);
    }

    /**
     * A short reply and the beginning of the request's own echo can look alike, checksum and all. The reply to a write
     * may be the request once more; on a line that echoes unasked no read would be answered at all.
     */
    private static boolean isBeginningOf(byte[] frame, byte[] sent) {
        return frame.length <= sent.length && Arrays.equals(frame, Arrays.copyOf(sent, frame.length));
    }

    private Pdu.Content wrong(Reception in, int start, byte[] sent, Request request) throws IOException {
        in.gather(wireTime.quiet());
        return RtuFrame.diagnose(in.bytes(start, in.count()), sent, request);
    }

    @Override
    public void listen(Reception in) throws IOException {
        try {
            in.gather(wireTime.quiet());
        } finally {
            silence.begins();
        }
    }

    @Override
    public List<Overheard> overheard(
            byte[] bytes, byte[] sent, Request request, boolean settled, @Nullable WriteRequest written) {
        return RtuTraffic.overheard(bytes, sent, request, settled, written);
    }
}
