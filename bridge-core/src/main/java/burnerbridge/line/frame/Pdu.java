package burnerbridge.line.frame;

import burnerbridge.line.Fault;
import burnerbridge.line.ReadRequest;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import java.util.HexFormat;

/**
 * Protocol data units of functions 1 to 4: a function code and its data, without unit and checksum.
 * The message library encodes; every reply is held against its request here, down to the last byte.
 */
public final class Pdu {
    private static final int EXCEPTION_FLAG = 0x80;

    private Pdu() {}

    /** What a reply's data unit says. */
    public sealed interface Content {
        /** The words or bits asked for, each 0 to 65535. */
        record Data(int[] words) implements Content {}

        record Exception(int code) implements Content {}

        record Wrong(Fault fault, String what) implements Content {}

        /** Nothing came at all. */
        record Nothing() implements Content {}

        /** What a frame says of which only the beginning, or nothing, came in time. */
        static Content cutOff(byte[] got, int wanted) {
            return got.length == 0
                    ? new Nothing()
                    : new Wrong(
                            Fault.LENGTH, "only " + got.length + " of " + wanted + " bytes came in time: " + hex(got));
        }
    }

    public static String hex(byte[] bytes) {
        return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes);
    }

    public static byte[] encode(ReadRequest request) {
        ModbusRequest message = message(request);
        byte[] data = message.getMessage();
        byte[] pdu = new byte[data.length + 1];
        pdu[0] = (byte) message.getFunctionCode();
        System.arraycopy(data, 0, pdu, 1, data.length);
        return pdu;
    }

    private static ModbusRequest message(ReadRequest request) {
        return switch (request.table()) {
            case COIL -> new ReadCoilsRequest(request.first(), request.count());
            case DISCRETE_INPUT -> new ReadInputDiscretesRequest(request.first(), request.count());
            case INPUT_REGISTER -> new ReadInputRegistersRequest(request.first(), request.count());
            case HOLDING_REGISTER -> new ReadMultipleRegistersRequest(request.first(), request.count());
        };
    }

    /** Checks a reply against its request: function, byte count and number of registers. */
    public static Content decode(ReadRequest request, byte[] pdu) {
        int function = pdu[0] & 0xFF;
        int expected = request.table().readFunction();
        if (function == (expected | EXCEPTION_FLAG)) {
            return exception(pdu);
        }
        if (function != expected) {
            return new Content.Wrong(
                    Fault.FUNCTION, "function " + function + " answered a request of function " + expected);
        }
        int bytes = expectedBytes(request);
        if (pdu.length < 2 || (pdu[1] & 0xFF) != bytes || pdu.length != 2 + bytes) {
            return new Content.Wrong(
                    Fault.LENGTH,
                    "the reply to " + request + " must hold " + bytes + " data bytes (was " + hex(pdu) + ")");
        }
        return new Content.Data(words(request, pdu));
    }

    private static Content exception(byte[] pdu) {
        if (pdu.length != 2 || pdu[1] == 0) {
            return new Content.Wrong(
                    Fault.LENGTH, "an exception reply is two bytes with a code of 1 to 255 (was " + hex(pdu) + ")");
        }
        return new Content.Exception(pdu[1] & 0xFF);
    }

    /** How many data bytes answer a request. */
    public static int expectedBytes(ReadRequest request) {
        return request.table().ofBits() ? (request.count() + 7) / 8 : request.count() * 2;
    }

    /**
     * Registers come high byte first, bits from the lowest of the first byte on (Modbus Application Protocol V1.1b3,
     * 4.2, 6.1). The library's streams lock for each byte, which took longer than all the rest of a long read.
     */
    private static int[] words(ReadRequest request, byte[] pdu) {
        int[] words = new int[request.count()];
        for (int i = 0; i < words.length; i++) {
            words[i] = request.table().ofBits()
                    ? pdu[2 + i / 8] >> i % 8 & 1
                    : (pdu[2 + 2 * i] & 0xFF) << 8 | pdu[3 + 2 * i] & 0xFF;
        }
        return words;
    }
}
