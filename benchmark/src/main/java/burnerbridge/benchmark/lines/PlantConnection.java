package burnerbridge.benchmark.lines;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SocketChannel;
import java.util.function.IntConsumer;

/**
 * Answers reads of registers on one connection (MODBUS Messaging on TCP/IP Implementation Guide V1.0b,
 * 3.1.3; Modbus Application Protocol V1.1b3, 6.3).
 */
final class PlantConnection {
    private static final int HEADER = 7;
    private static final int REQUEST = HEADER + 5;
    private static final int MOST_REGISTERS = 125;

    private final SocketChannel channel;
    private final IntConsumer asked;
    private final ByteBuffer in = ByteBuffer.allocate(REQUEST);
    private final ByteBuffer out = ByteBuffer.allocate(HEADER + 2 + 2 * MOST_REGISTERS);

    /** @param asked is told the first address of each read */
    PlantConnection(SocketChannel channel, IntConsumer asked) {
        this.channel = channel;
        this.asked = asked;
    }

    /** Answers what has come; throws where the connection has ended or asks for what it has not. */
    void answer() throws IOException {
        if (channel.read(in) < 0) {
            throw new EOFException();
        }
        if (!in.hasRemaining()) {
            reply(in.flip());
            in.clear();
        }
    }

    private void reply(ByteBuffer request) throws IOException {
        short transaction = request.getShort(0);
        byte unit = request.get(6);
        byte function = request.get(7);
        int address = request.getShort(8) & 0xFFFF;
        int count = request.getShort(10) & 0xFFFF;
        if ((function != 3 && function != 4) || count > MOST_REGISTERS) {
            throw new IOException("function " + function + " for " + count);
        }
        asked.accept(address);
        out.clear().putShort(transaction).putShort((short) 0).putShort((short) (3 + 2 * count));
        out.put(unit).put(function).put((byte) (2 * count));
        for (int i = 0; i < count; i++) {
            out.putShort((short) (address + i));
        }
        channel.write(out.flip());
    }
}
