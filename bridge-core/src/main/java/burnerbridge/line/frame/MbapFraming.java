package burnerbridge.line.frame;

import burnerbridge.line.Heard;
import burnerbridge.line.Request;
import burnerbridge.line.wire.Reception;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The framing of Modbus TCP: every transaction has a number of its own, which its reply must carry. */
public final class MbapFraming implements Framing {
    private static final int LARGEST_TRANSACTION = 0xFFFF;

    /** What waits has come already. */
    private static final Duration AT_ONCE = Duration.ofMillis(1);

    private int transaction;

    @Override
    public void begins() {
        // Nothing shares the wire.
    }

    @Override
    public void awaitTurn() {
        // Nothing shares the wire.
    }

    @Override
    public byte[] frame(UnitId unit, byte[] pdu) {
        transaction = transaction == LARGEST_TRANSACTION ? 1 : transaction + 1;
        return Mbap.frame(transaction, unit, pdu);
    }

    @Override
    public Optional<byte[]> opened(byte[] frame) {
        return Mbap.opened(frame);
    }

    @Override
    public Duration wireTime(Request request) {
        return Duration.ZERO;
    }

    @Override
    public Pdu.Content receive(Reception in, byte[] sent, Request request) throws IOException {
        if (!in.has(Mbap.BYTES)) {
            return Pdu.Content.cutOff(in.all(), Mbap.BYTES);
        }
        Mbap mbap = Mbap.parse(in.all());
        Optional<Pdu.Content> objection = mbap.objection(transaction, request);
        if (objection.isPresent()) {
            return objection.get();
        }
        int whole = Mbap.BYTES + mbap.pduLength();
        return in.has(whole) ? Pdu.decode(request, in.bytes(Mbap.BYTES, whole)) : Pdu.Content.cutOff(in.all(), whole);
    }

    @Override
    public void listen(Reception in) throws IOException {
        in.gather(AT_ONCE);
    }

    /** Replies carry their transaction, so that a second one shows; nothing else on a connection has a meaning. */
    @Override
    public List<Overheard> overheard(
            byte[] bytes, byte[] sent, Request request, boolean settled, @Nullable WriteRequest written) {
        if (bytes.length < Mbap.BYTES
                || Mbap.parse(bytes).objection(transaction, request).isPresent()) {
            return List.of(Overheard.NOISE);
        }
        return List.of(new Overheard(settled ? Heard.SECOND_REPLY : Heard.LATE_REPLY, request.unit()));
    }
}
