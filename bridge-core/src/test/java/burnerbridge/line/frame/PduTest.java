package burnerbridge.line.frame;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.line.Fault;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.WriteTemplate;
import burnerbridge.model.Registers;
import burnerbridge.site.AddressRange;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.util.Arrays;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Data units against the examples of the Modbus Application Protocol V1.1b3, sections 6.1 to 6.6, 6.11, 6.12, 6.16 and
 * 7 (from memory).
 */
class PduTest {
    private static final UnitId UNIT = new UnitId(1);

    private static byte[] hex(String text) {
        return HexFormat.of().parseHex(text.replace(" ", ""));
    }

    private static int[] decoded(ReadRequest request, String reply) {
        return ((Pdu.Content.Data) Pdu.decode(request, hex(reply))).words();
    }

    private static String wrong(ReadRequest request, String reply) {
        return ((Pdu.Content.Wrong) Pdu.decode(request, hex(reply))).what();
    }

    @ParameterizedTest
    @CsvSource({
        // 6.1 Read coils 20 to 38, 6.2 read discrete inputs 197 to 218, 6.3 read holding registers 108 to
        // 110, 6.4 read input register 9.
        "COIL, 19, 19, 01 00 13 00 13",
        "DISCRETE_INPUT, 196, 22, 02 00 C4 00 16",
        "HOLDING_REGISTER, 107, 3, 03 00 6B 00 03",
        "INPUT_REGISTER, 8, 1, 04 00 08 00 01"
    })
    void requestsAreThoseOfTheStandard(RegisterTable table, int first, int count, String request) {
        assertThat(Pdu.encode(new ReadRequest(UNIT, table, first, count))).isEqualTo(hex(request));
    }

    @ParameterizedTest
    @CsvSource({
        // 6.5: coil 173 on. 6.6: register 2 to 3. 6.11: coils 20 to 29. 6.12: registers 2 and 3.
        "5, COIL, 172, 1, 05 00AC FF00, 05 00AC FF00",
        "6, HOLDING_REGISTER, 1, 3, 06 0001 0003, 06 0001 0003",
        "15, COIL, 19, 1 0 1 1 0 0 1 1 1 0, 0F 0013 000A 02 CD01, 0F 0013 000A",
        "16, HOLDING_REGISTER, 1, 10 258, 10 0001 0002 04 000A 0102, 10 0001 0002"
    })
    void writesAndTheirRepliesAreThoseOfTheStandard(
            int function, RegisterTable table, int first, String words, String request, String reply) {
        Registers data = Registers.of(
                Arrays.stream(words.split(" ")).mapToInt(Integer::parseInt).toArray());
        WriteTemplate template = new WriteTemplate(UNIT, function, AddressRange.of(table, first, data.count()), 0);
        assertThat(Pdu.encode(template, data)).isEqualTo(hex(request));
        assertThat(Pdu.decode(new WriteRequest(template, hex(request)), hex(reply)))
                .isInstanceOf(Pdu.Content.Data.class);
    }

    /**
     * 6.16 keeps what is in 00F2 of register 5 and sets what is in 0025, of which 0020 lies outside of what is changed
     * and so has no effect: that bit we do not send.
     */
    @Test
    void theMaskWriteOfTheStandardIsSentWithoutTheBitThatItKeeps() {
        WriteTemplate template =
                new WriteTemplate(UNIT, 22, AddressRange.of(RegisterTable.HOLDING_REGISTER, 4, 1), 0xFF0D);
        byte[] request = Pdu.encode(template, Registers.of(0x0025));
        assertThat(request).isEqualTo(hex("16 0004 00F2 0005"));
        assertThat(Pdu.decode(new WriteRequest(template, request), hex("16 0004 00F2 0005")))
                .isInstanceOf(Pdu.Content.Data.class);
        // The standard's own reckoning: 12 becomes 17.
        assertThat((0x12 & 0x00F2) | (0x0005 & ~0x00F2)).isEqualTo((0x12 & 0x00F2) | (0x0025 & ~0x00F2));
    }

    @ParameterizedTest
    @CsvSource({
        "06 0001 0003, 06 0001 0004, OTHER_WRITE",
        "06 0001 0003, 06 0002 0003, OTHER_WRITE",
        "06 0001 0003, 06 0001, LENGTH",
        "06 0001 0003, 06 0001 0003 00, LENGTH",
        "06 0001 0003, 10 0001 0003, FUNCTION",
        "06 0001 0003, 90 02, FUNCTION",
        "06 0001 0003, 86 00, LENGTH",
        "06 0001 0003, 86 02 00, LENGTH"
    })
    void aReplyThatNamesAnythingElseIsNotThatToTheWrite(String request, String reply, Fault fault) {
        WriteTemplate template = new WriteTemplate(UNIT, 6, AddressRange.of(RegisterTable.HOLDING_REGISTER, 1, 1), 0);
        Pdu.Content content = Pdu.decode(new WriteRequest(template, hex(request)), hex(reply));
        assertThat(((Pdu.Content.Wrong) content).fault()).isEqualTo(fault);
        assertThat(Pdu.decode(new WriteRequest(template, hex(request)), hex("86 02")))
                .isEqualTo(new Pdu.Content.Exception(2));
    }

    @Test
    void coilsOfTheStandardsExample() {
        // 6.1: CD 6B 05 tells coils 20 to 38, the least significant bit first.
        assertThat(decoded(new ReadRequest(UNIT, RegisterTable.COIL, 19, 19), "01 03 CD 6B 05"))
                .containsExactly(1, 0, 1, 1, 0, 0, 1, 1, 1, 1, 0, 1, 0, 1, 1, 0, 1, 0, 1);
    }

    @Test
    void discreteInputsOfTheStandardsExample() {
        // 6.2: AC DB 35 tells inputs 197 to 218.
        assertThat(decoded(new ReadRequest(UNIT, RegisterTable.DISCRETE_INPUT, 196, 22), "02 03 AC DB 35"))
                .containsExactly(0, 0, 1, 1, 0, 1, 0, 1, 1, 1, 0, 1, 1, 0, 1, 1, 1, 0, 1, 0, 1, 1);
    }

    @Test
    void holdingRegistersOfTheStandardsExample() {
        // 6.3: registers 108 to 110 hold 555, 0 and 100.
        assertThat(decoded(new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 107, 3), "03 06 02 2B 00 00 00 64"))
                .containsExactly(555, 0, 100);
    }

    @Test
    void inputRegisterOfTheStandardsExample() {
        // 6.4: register 9 holds 10.
        assertThat(decoded(new ReadRequest(UNIT, RegisterTable.INPUT_REGISTER, 8, 1), "04 02 00 0A"))
                .containsExactly(10);
    }

    @Test
    void anExceptionOfTheStandardsExample() {
        // 7: a request of function 1 for output 1185 is refused with 81 02.
        ReadRequest request = new ReadRequest(UNIT, RegisterTable.COIL, 0x04A1, 1);
        assertThat(Pdu.decode(request, hex("81 02"))).isEqualTo(new Pdu.Content.Exception(2));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "04 06 022B 0000 0064", // another function
                "83",
                "8302 00",
                "83 00", // exceptions that are none
                "84 02", // the exception of another function
                "03",
                "03 06",
                "03 06 022B 0000 00", // too short
                "03 06 022B 0000 0064 00", // a byte too many
                "03 05 022B 0000 00",
                "03 04 022B 0000",
                "03 08 022B 0000 0064 0000", // another number of registers
                "03 04 022B 0000 0064",
                "03 FF 022B 0000 0064" // a byte count that is not true
            })
    void aReplyThatDoesNotMatchItsRequestIsWrong(String reply) {
        assertThat(wrong(new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 107, 3), reply))
                .isNotEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "HOLDING_REGISTER, 0, 0",
        "HOLDING_REGISTER, 0, 126",
        "INPUT_REGISTER, 65535, 2",
        "COIL, 0, 2001",
        "DISCRETE_INPUT, -1, 1",
        "HOLDING_REGISTER, 65541, 1",
        "HOLDING_REGISTER, 0, 70000"
    })
    void aRequestThatTheProtocolCannotCarryIsNotMade(RegisterTable table, int first, int count) {
        assertThatThrownBy(() -> new ReadRequest(UNIT, table, first, count))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
