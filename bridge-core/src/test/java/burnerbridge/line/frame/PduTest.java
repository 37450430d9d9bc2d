package burnerbridge.line.frame;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Data units against the examples of the Modbus Application Protocol V1.1b3, sections 6.1 to 6.4 and 7
 * (from memory).
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
