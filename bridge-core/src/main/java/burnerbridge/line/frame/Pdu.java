package burnerbridge.line.frame;

import burnerbridge.line.Fault;
import burnerbridge.line.ReadRequest;
import burnerbridge.site.RegisterTable;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadCoilsResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersResponse;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersResponse;
import java.io.ByteArrayInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.HexFormat;
import java.util.function.IntUnaryOperator;

/**
 * Protocol data units of functions 1 to 4: a function code and its data, without unit and checksum.
 * The message library encodes and decodes; what it does not check is checked here.
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

    private static int[] words(ReadRequest request, byte[] pdu) {
        IntUnaryOperator word = wordsOf(request.table(), pdu);
        int[] words = new int[request.count()];
        for (int i = 0; i < words.length; i++) {
            words[i] = word.applyAsInt(i);
        }
        return words;
    }

    private static IntUnaryOperator wordsOf(RegisterTable table, byte[] pdu) {
        ModbusResponse reply = ModbusResponse.createModbusResponse(table.readFunction());
        try {
            reply.readData(new DataInputStream(new ByteArrayInputStream(pdu, 1, pdu.length - 1)));
        } catch (IOException e) {
            throw new UncheckedIOException("a reply of checked length could not be read", e);
        }
        if (reply instanceof ReadCoilsResponse coils) {
            return i -> coils.getCoilStatus(i) ? 1 : 0;
        }
        if (reply instanceof ReadInputDiscretesResponse inputs) {
            return i -> inputs.getDiscreteStatus(i) ? 1 : 0;
        }
        if (reply instanceof ReadInputRegistersResponse registers) {
            return registers::getRegisterValue;
        }
        return ((ReadMultipleRegistersResponse) reply)::getRegisterValue;
    }
}
