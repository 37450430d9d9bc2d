package burnerbridge.line;

import burnerbridge.line.frame.Pdu;
import burnerbridge.line.frame.WriteRequest;
import burnerbridge.model.Registers;
import java.nio.ByteBuffer;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Encodes the writes of a line's templates, and sends them over its transport. */
final class FramedWrites implements LineWrites {
    private final FramedTransport transport;
    /** Some write of each, to say when its turn is. */
    private final Map<WriteTemplate, WriteRequest> templates = new HashMap<>();

    FramedWrites(FramedTransport transport, List<WriteTemplate> templates) {
        this.transport = transport;
        templates.forEach(template -> this.templates.put(template, encoded(template, zeros(template))));
    }

    private static Registers zeros(WriteTemplate template) {
        return Registers.of(new int[template.range().count()]);
    }

    private static WriteRequest encoded(WriteTemplate template, Registers data) {
        return new WriteRequest(template, Pdu.encode(template, data));
    }

    @Override
    public byte[] encode(WriteTemplate template, Registers data) {
        some(template);
        byte[] pdu = encoded(template, data).pdu();
        return ByteBuffer.allocate(1 + pdu.length)
                .put((byte) template.unit().number())
                .put(pdu)
                .array();
    }

    @Override
    public WriteOutcome write(WriteTemplate template, Registers data) {
        some(template);
        return transport.write(encoded(template, data));
    }

    @Override
    public long readyAt(WriteTemplate template, long now) {
        return transport.readyAt(some(template), now);
    }

    private WriteRequest some(WriteTemplate template) {
        WriteRequest some = templates.get(template);
        if (some == null) {
            throw new IllegalArgumentException("this line was made without the write of " + template);
        }
        return some;
    }

    @Override
    public boolean isConnected() {
        return transport.isConnected();
    }

    @Override
    public long connections() {
        return transport.connections();
    }
}
