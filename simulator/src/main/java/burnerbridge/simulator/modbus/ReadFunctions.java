package burnerbridge.simulator.modbus;

import java.nio.ByteBuffer;
import java.util.Optional;

/**
 * Answers requests by functions 1 to 4 in the order of checks of Modbus Application Protocol V1.1b3,
 * clauses 6.1 to 6.4: function, then quantity, then addresses. Every other function gets exception 1.
 */
final class ReadFunctions {
    /** Function, address, quantity. */
    private static final int REQUEST_LENGTH = 5;

    private final RegisterImage image;

    ReadFunctions(RegisterImage image) {
        this.image = image;
    }

    /** The reply to a request, both from the function code on; the request holds at least that. */
    byte[] replyTo(byte[] request) {
        int function = request[0] & 0xFF;
        Optional<ModbusTable> table = ModbusTable.readBy(function).filter(image::has);
        if (table.isEmpty()) {
            return ExceptionCode.ILLEGAL_FUNCTION.replyTo(function);
        }
        if (request.length != REQUEST_LENGTH) {
            return ExceptionCode.ILLEGAL_DATA_VALUE.replyTo(function);
        }
        ByteBuffer fields = ByteBuffer.wrap(request, 1, REQUEST_LENGTH - 1);
        return read(table.get(), fields.getShort() & 0xFFFF, fields.getShort() & 0xFFFF);
    }

    private byte[] read(ModbusTable table, int address, int count) {
        if (count < 1 || count > image.longest(table)) {
            return ExceptionCode.ILLEGAL_DATA_VALUE.replyTo(table.readFunction());
        }
        return image.read(table, address, count)
                .map(values -> table.holdsBits() ? bits(table, values) : registers(table, values))
                .orElseGet(() -> ExceptionCode.ILLEGAL_DATA_ADDRESS.replyTo(table.readFunction()));
    }

    /** The first in the lowest bit of the first byte; bits that fill up the last byte are 0. */
    private static byte[] bits(ModbusTable table, int[] values) {
        int bytes = (values.length + 7) / 8;
        byte[] reply = new byte[2 + bytes];
        reply[0] = (byte) table.readFunction();
        reply[1] = (byte) bytes;
        for (int i = 0; i < values.length; i++) {
            reply[2 + i / 8] |= (byte) ((values[i] & 1) << (i % 8));
        }
        return reply;
    }

    private static byte[] registers(ModbusTable table, int[] values) {
        ByteBuffer reply = ByteBuffer.allocate(2 + 2 * values.length);
        reply.put((byte) table.readFunction()).put((byte) (2 * values.length));
        for (int value : values) {
            reply.putShort((short) value);
        }
        return reply.array();
    }
}
