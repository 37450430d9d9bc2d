package burnerbridge.simulator.manners;

import burnerbridge.simulator.frame.Frame;
import burnerbridge.simulator.frame.MbapFrame;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Random;
import java.util.function.BiFunction;

/** Replies of which one field is wrong, with a checksum that fits. */
final class Fields {
    private static final int COUNT_AT = 1;
    private static final int DATA_AT = 2;
    private static final int MOST_DATA = 250;

    private Fields() {}

    private static Manners sending(BiFunction<Exchange, Frame, Frame> change) {
        return exchange -> List.of(exchange.send(change.apply(exchange, exchange.reply())));
    }

    static Manners wrongUnit(Random dice) {
        return sending((exchange, reply) -> reply.withUnit(reply.unit() + 1 + dice.nextInt(255)));
    }

    static Manners wrongFunction(Random dice) {
        return sending((exchange, reply) -> reply.withPdu(Bytes.changed(reply.pdu(), 0, 1 + dice.nextInt(127))));
    }

    static Manners wrongTransaction(Random dice) {
        return sending((exchange, reply) -> reply.withTransaction(reply.transaction() + 1 + dice.nextInt(0xFFFF)));
    }

    static Manners wrongProtocol(Random dice) {
        return sending((exchange, reply) -> reply.withProtocol(reply.protocol() + 1 + dice.nextInt(0xFFFF)));
    }

    /** The length of the header is another than what follows it. */
    static Manners wrongLength(Random dice) {
        return exchange -> {
            byte[] bytes = exchange.rightly().bytes();
            int length = ByteBuffer.wrap(bytes).getShort(MbapFrame.LENGTH_AT);
            int wrong = dice.nextBoolean() ? length + 1 + dice.nextInt(0x7FFF) : dice.nextInt(length);
            ByteBuffer.wrap(bytes).putShort(MbapFrame.LENGTH_AT, (short) wrong);
            return List.of(new Act.Send(bytes));
        };
    }

    /** The byte count is another than what follows it. */
    static Manners wrongByteCount(Random dice) {
        return sending((exchange, reply) -> reply.withPdu(Bytes.changed(reply.pdu(), COUNT_AT, 1 + dice.nextInt(255))));
    }

    /** One register less, or one byte of bits, and a byte count that says so. */
    static Manners fewer() {
        return sending((exchange, reply) -> {
            int data = reply.pdu().length - DATA_AT - step(reply);
            return exchange.isRefused() || data < 0 ? reply : resized(reply, data);
        });
    }

    /** One register more, or one byte of bits, and a byte count that says so. */
    static Manners more() {
        return sending((exchange, reply) -> {
            int data = reply.pdu().length - DATA_AT + step(reply);
            return exchange.isRefused() || data > MOST_DATA ? reply : resized(reply, data);
        });
    }

    private static int step(Frame reply) {
        return reply.function() <= 2 ? 1 : 2;
    }

    private static Frame resized(Frame reply, int data) {
        byte[] pdu = java.util.Arrays.copyOf(reply.pdu(), DATA_AT + data);
        pdu[COUNT_AT] = (byte) data;
        return reply.withPdu(pdu);
    }

    /** The checksum is not its own. */
    static Manners badChecksum(Random dice) {
        return exchange -> {
            byte[] right = exchange.rightly().bytes();
            return List.of(
                    new Act.Send(Bytes.changed(right, right.length - 1 - dice.nextInt(2), 1 + dice.nextInt(255))));
        };
    }

    /** Every data byte is 0, as registers are that nobody has filled yet. */
    static Manners zeros() {
        return sending((exchange, reply) -> {
            byte[] pdu = new byte[reply.pdu().length];
            pdu[0] = reply.pdu()[0];
            pdu[COUNT_AT] = reply.pdu()[COUNT_AT];
            return exchange.isRefused() ? reply : reply.withPdu(pdu);
        });
    }
}
