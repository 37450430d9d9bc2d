package burnerbridge.simulator.modbus;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HexFormat;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Vectors from the examples of Modbus Application Protocol V1.1b3, clause by clause; from memory. */
class ReadFunctionsTest {
    private static final HexFormat HEX = HexFormat.of().withUpperCase();

    @ParameterizedTest(name = "clause {0}")
    @MethodSource("examples")
    void theExamplesOfTheSpecificationAreAnswered(String clause, RegisterImage image, String request, String reply) {
        assertThat(reply(image, request)).isEqualTo(reply);
    }

    static Stream<Arguments> examples() {
        return Stream.of(
                // Outputs 20 to 38; 27-20 are 1100 1101, 35-28 are 0110 1011, 38-36 are 101.
                Arguments.of(
                        "6.1",
                        FixedImage.ofBits(ModbusTable.COIL, 0x13, "1011001111010110101"),
                        "0100130013",
                        "0103CD6B05"),
                // Inputs 197 to 218; 204-197 are 1010 1100, 212-205 are 1101 1011, 218-213 are 11 0101.
                Arguments.of(
                        "6.2",
                        FixedImage.ofBits(ModbusTable.DISCRETE_INPUT, 0xC4, "0011010111011011101011"),
                        "0200C40016",
                        "0203ACDB35"),
                // Registers 108 to 110 hold 555, 0 and 100.
                Arguments.of(
                        "6.3",
                        new FixedImage(ModbusTable.HOLDING_REGISTER, 0x6B, 555, 0, 100),
                        "03006B0003",
                        "0306022B00000064"),
                // Input register 9 holds 10.
                Arguments.of("6.4", new FixedImage(ModbusTable.INPUT_REGISTER, 0x08, 10), "0400080001", "0402000A"),
                // Clause 7: coil 1185 is read where there is none.
                Arguments.of("7", FixedImage.ofBits(ModbusTable.COIL, 0, "1"), "0104A10001", "8102"));
    }

    @ParameterizedTest
    @CsvSource({
        "0100000000, 8103, no coil",
        "01000007D1, 8103, 2001 coils",
        "02000007D1, 8203, 2001 inputs",
        "0300000000, 8303, no register",
        "030000007E, 8303, 126 registers",
        "040000007E, 8403, 126 registers",
        "0400000002, 8402, one register past the end",
        "04FFFF0002, 8402, past the last address",
        "0400010001, 8402, an address that is not there",
        "0300000001, 8302, a table that is empty",
        "04000000, 8403, a request cut short",
        "040000000100, 8403, a request with a byte too many",
    })
    void whatCannotBeReadIsRefusedWithItsCode(String request, String reply, String why) {
        RegisterImage image = new FixedImage(ModbusTable.INPUT_REGISTER, 0, 7);

        assertThat(reply(image, request)).as(why).isEqualTo(reply);
    }

    @Test
    void theQuantityIsCheckedBeforeTheAddress() {
        RegisterImage image = new FixedImage(ModbusTable.INPUT_REGISTER, 0, 7);

        assertThat(reply(image, "04FFFF0000")).isEqualTo("8403");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "0500ACFF00",
                "0600010003",
                "0F0013000A02CD01",
                "100001000204000A0102",
                "16000400F20025",
                "1700030006000E00030600FF00FF00FF",
                "2B0E0100",
                "00",
                "83",
            })
    void everyOtherFunctionIsIllegal(String request) {
        RegisterImage image = new FixedImage(ModbusTable.HOLDING_REGISTER, 0, new int[200]);
        int function = HEX.parseHex(request)[0] & 0xFF;

        assertThat(reply(image, request)).isEqualTo(HEX.toHexDigits((byte) (function | 0x80)) + "01");
    }

    @Test
    void theMostThatARequestMayAskForIsAnswered() {
        RegisterImage registers = new FixedImage(ModbusTable.HOLDING_REGISTER, 0, new int[125]);
        RegisterImage coils = new FixedImage(ModbusTable.COIL, 0, new int[2000]);

        assertThat(reply(registers, "030000007D")).startsWith("03FA").hasSize(2 * 252);
        assertThat(reply(coils, "01000007D0")).startsWith("01FA").hasSize(2 * 252);
    }

    private static String reply(RegisterImage image, String request) {
        return HEX.formatHex(new ReadFunctions(image).replyTo(HEX.parseHex(request)));
    }
}
