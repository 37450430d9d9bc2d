package burnerbridge.line.frame;

import burnerbridge.line.Fault;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.Request;
import burnerbridge.line.WriteTemplate;
import burnerbridge.model.Registers;
import burnerbridge.site.permit.Functions;
import com.ghgande.j2mod.modbus.msg.MaskWriteRegisterRequest;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteCoilRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleCoilsRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterRequest;
import com.ghgande.j2mod.modbus.procimg.Register;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.util.BitVector;
import java.util.Arrays;
import java.util.HexFormat;

/**
 * Protocol data units of functions 1 to 4, and of those that write: a function code and its data, without unit and
 * checksum. The message library encodes; every reply is held against its request here, down to the last byte.
 */
public final class Pdu {
    private static final int EXCEPTION_FLAG = 0x80;
    /** Function, address, count. */
    private static final int READ_BYTES = 5;

    private static final int REGISTER = 0xFFFF;

    private Pdu() {}

    /** What a reply's data unit says. */
    public sealed interface Content {
        /** The words or bits asked for, each 0 to 65535; none in reply to a write. */
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
        return bytes(message(request));
    }

    /**
     * Encodes a write.
     *
     * @param data the registers of the template, or bits as words of 0 and 1; for function 22 the register as its bits
     *     shall be, of which those outside the mask are not looked at
     * @throws IllegalArgumentException where there is more or less of it than the template writes, or a bit is neither 0
     *     nor 1
     */
    public static byte[] encode(WriteTemplate template, Registers data) {
        if (data.count() != template.range().count()) {
            throw new IllegalArgumentException(
                    "a write of " + template + " takes " + template.range().count() + " (was " + data.count() + ")");
        }
        return bytes(message(template, data));
    }

    private static byte[] bytes(ModbusRequest message) {
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

    private static ModbusRequest message(WriteTemplate template, Registers data) {
        int first = template.range().first();
        return switch (template.function()) {
            case Functions.SINGLE_COIL -> new WriteCoilRequest(first, bit(template, data, 0));
            case Functions.SINGLE_REGISTER -> new WriteSingleRegisterRequest(first, new SimpleRegister(data.word(0)));
            case Functions.COILS -> new WriteMultipleCoilsRequest(first, bits(template, data));
            case Functions.REGISTERS -> new WriteMultipleRegistersRequest(first, registers(data));
            default -> new MaskWriteRegisterRequest(first, ~template.mask() & REGISTER, data.word(0) & template.mask());
        };
    }

    private static boolean bit(WriteTemplate template, Registers data, int index) {
        if (data.word(index) > 1) {
            throw new IllegalArgumentException(
                    "a write of " + template + " takes bits of 0 or 1 (was " + data.word(index) + ")");
        }
        return data.word(index) == 1;
    }

    private static BitVector bits(WriteTemplate template, Registers data) {
        BitVector bits = new BitVector(data.count());
        for (int i = 0; i < data.count(); i++) {
            bits.setBit(i, bit(template, data, i));
        }
        return bits;
    }

    private static Register[] registers(Registers data) {
        Register[] registers = new Register[data.count()];
        Arrays.setAll(registers, i -> new SimpleRegister(data.word(i)));
        return registers;
    }

    static int requestBytes(Request request) {
        return request instanceof WriteRequest write ? write.requestBytes() : READ_BYTES;
    }

    /** How many bytes the data unit of the reply has that a request wants. */
    public static int replyBytes(Request request) {
        return request instanceof WriteRequest write ? write.reply().length : 2 + expectedBytes((ReadRequest) request);
    }

    /** What stands behind the function in the reply that a request wants: a byte count, or half an address. */
    static int secondOfReply(Request request) {
        return request instanceof WriteRequest write ? write.reply()[1] & 0xFF : expectedBytes((ReadRequest) request);
    }

    /** Whether the reply that a request wants is the request itself. */
    static boolean isRepeated(Request request) {
        return request instanceof WriteRequest write && Arrays.equals(write.reply(), write.pdu());
    }

    /** Checks a reply against its request: function, byte count and number of registers, or address and value. */
    public static Content decode(Request request, byte[] pdu) {
        int function = pdu[0] & 0xFF;
        int expected = request.function();
        if (function == (expected | EXCEPTION_FLAG)) {
            return exception(pdu);
        }
        if (function != expected) {
            return new Content.Wrong(
                    Fault.FUNCTION, "function " + function + " answered a request of function " + expected);
        }
        return request instanceof WriteRequest write ? ofWrite(write, pdu) : ofRead((ReadRequest) request, pdu);
    }

    private static Content ofWrite(WriteRequest request, byte[] pdu) {
        byte[] wanted = request.reply();
        if (pdu.length != wanted.length) {
            return new Content.Wrong(
                    Fault.LENGTH,
                    "the reply to a " + request + " must hold " + wanted.length + " bytes (was " + hex(pdu) + ")");
        }
        return Arrays.equals(pdu, wanted)
                ? new Content.Data(new int[0])
                : new Content.Wrong(
                        Fault.OTHER_WRITE,
                        "the reply to a " + request + " must be " + hex(wanted) + " (was " + hex(pdu) + ")");
    }

    private static Content ofRead(ReadRequest request, byte[] pdu) {
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
