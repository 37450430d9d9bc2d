package burnerbridge.line.frame;

import burnerbridge.line.ReadRequest;
import burnerbridge.line.wire.Reception;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.time.Duration;
import java.util.Optional;

/** The framing of Modbus TCP: every transaction has a number of its own, which its reply must carry. */
public final class MbapFraming implements Framing {
    private static final int LARGEST_TRANSACTION = 0xFFFF;

    private int transaction;

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
    public int functionAt() {
        return Mbap.BYTES;
    }

    @Override
    public Duration wireTime(ReadRequest request) {
        return Duration.ZERO;
    }

    @Override
    public Pdu.Content receive(Reception in, byte[] sent, ReadRequest request) throws IOException {
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
}
