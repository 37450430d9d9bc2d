package burnerbridge.simulator.modbus;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.modbus.AcceptingImage.Accepted;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Writes, with the examples of Modbus Application Protocol V1.1b3, 6.5, 6.6, 6.11, 6.12 and 6.16 (from memory). */
class WritesTest {
    private static final HexFormat HEX = HexFormat.of().withUpperCase();
    private static final RegisterImage ALL_ZERO =
            (table, address, count) -> address + count > 1000 ? Optional.empty() : Optional.of(new int[count]);

    private final AcceptingImage image = new AcceptingImage(
            ALL_ZERO,
            List.of(new Accepted(ModbusTable.COIL, 19, 172), new Accepted(ModbusTable.HOLDING_REGISTER, 1, 4)));
    private final Units units = new Units(Map.of(1, image, 2, ALL_ZERO), UnknownUnit.SILENT);

    private String reply(int unit, String request) {
        return HEX.formatHex(units.replyTo(unit, HEX.parseHex(request)).orElseThrow());
    }

    private void write(String request) {
        Write write = units.accepted(1, HEX.parseHex(request)).orElseThrow();
        assertThat(units.apply(1, write)).isPresent();
    }

    private String read(String request) {
        return reply(1, request);
    }

    @Test
    void theExamplesOfTheStandardAreDone() {
        assertThat(reply(1, "0500ACFF00")).isEqualTo("0500ACFF00");
        write("0500ACFF00");
        assertThat(read("0100AC0001")).isEqualTo("010101");
        write("0500AC0000");
        assertThat(read("0100AC0001")).isEqualTo("010100");

        assertThat(reply(1, "0600010003")).isEqualTo("0600010003");
        write("0600010003");
        assertThat(read("0300010001")).isEqualTo("03020003");

        assertThat(reply(1, "0F0013000A02CD01")).isEqualTo("0F0013000A");
        write("0F0013000A02CD01");
        assertThat(read("010013000A")).isEqualTo("0102CD01");

        assertThat(reply(1, "100001000204000A0102")).isEqualTo("1000010002");
        write("100001000204000A0102");
        assertThat(read("0300010002")).isEqualTo("0304000A0102");

        image.set(ModbusTable.HOLDING_REGISTER, 4, 0x12);
        assertThat(reply(1, "16000400F20025")).isEqualTo("16000400F20025");
        write("16000400F20025");
        assertThat(read("0300040001")).isEqualTo("03020017");
    }

    @Test
    void aReplyAloneWritesNothing() {
        assertThat(reply(1, "0600010003")).isEqualTo("0600010003");
        assertThat(read("0300010001")).isEqualTo("03020000");
    }

    @ParameterizedTest
    @CsvSource({
        "0500ACFF01, 8503",
        "0500AC0001, 8503",
        "0500ADFF00, 8502",
        "0500AC, 8503",
        "0600050003, 8602",
        "0600000003, 8602",
        "06000100, 8603",
        "0F0013000A01CD, 8F03",
        "0F001300000100, 8F03",
        "0F0012000A02CD01, 8F02",
        "0F0013000A03CD0100, 8F03",
        "100001000203000A01, 9003",
        "10000100000100, 9003",
        "1000040002040000FFFF, 9002",
        "16000500F20025, 9602",
        "16000400F200, 9603",
        "17000100010001000102FFFF, 9701",
        "150706000400070001FFFF, 9501",
        "08000000AA, 8801"
    })
    void whatCannotBeWrittenIsRefused(String request, String reply) {
        assertThat(reply(1, request)).isEqualTo(reply);
        assertThat(units.accepted(1, HEX.parseHex(request))).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"0500ACFF00, 8501", "0600010003, 8601", "0F0013000A02CD01, 8F01", "16000400F20025, 9601"})
    void aUnitThatTakesNoWritesHasNotTheirFunctions(String request, String reply) {
        assertThat(reply(2, request)).isEqualTo(reply);
        assertThat(units.accepted(2, HEX.parseHex(request))).isEmpty();
        assertThat(units.accepted(3, HEX.parseHex(request))).isEmpty();
    }

    @Test
    void somebodyElseMayChangeWhatIsThere() {
        image.set(ModbusTable.HOLDING_REGISTER, 900, 7, 8);
        assertThat(read("0303840002")).isEqualTo("030400070008");
        assertThat(reply(1, "0603840001")).isEqualTo("8602");
    }
}
