package burnerbridge.simulator.registers;

import static burnerbridge.simulator.modbus.ModbusTable.HOLDING_REGISTER;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Vectors typed by hand; 123.456 as binary32 is 42F6E979, 1.5 as binary64 3FF8000000000000 (IEEE 754; from memory). */
class FormsTest {
    private final Cells cells = new Cells();

    @ParameterizedTest
    @CsvSource({
        "u16, 0, 0000",
        "u16, 11.6, 000C",
        "u16, -5, 0000",
        "u16, 70000, FFFF",
        "s16, -1, FFFF",
        "s16, -32768, 8000",
        "s16, -2.4, FFFE",
        "s16, 40000, 7FFF",
        "sm16, -12, 800C",
        "sm16, 12, 000C",
        "u32, 148213, 0002 42F5",
        "u32/low-first, 148213, 42F5 0002",
        "s32, -100000, FFFE 7960",
        "u64, 5021377125, 0000 0001 2B4C 2265",
        "u32.high, 148213, 0002",
        "u32.low, 148213, 42F5",
        "bcd16, 1234, 1234",
        "bcd16, 7, 0007",
        "bcd32, 8020311, 0802 0311",
        "bcd32/low-first, 8020311, 0311 0802",
        "dec2, 123456, 000C 0D80",
        "dec3, 8610047, 0000 035D 002F",
        "f32, 123.456, 42F6 E979",
        "f32/low-first, 123.456, E979 42F6",
        "f32/swapped, 123.456, F642 79E9",
        "f32/low-first/swapped, 123.456, 79E9 F642",
        "f64, 1.5, 3FF8 0000 0000 0000",
        "high8, 171, AB00",
        "low8, 171, 00AB",
        "bit0, 1, 0001",
        "bit15, 1, 8000",
        "bits4-7, 11, 00B0",
        "bits4-7, 99, 00F0",
    })
    void aNumberLiesInItsRegisters(String form, double number, String words) {
        assertThat(written(form, new Shown.Steps(number))).isEqualTo(words);
    }

    /** 2026-11-28 09:30:05 UTC is 1795858205 s after 1970, 6B0A9F1D; in Lisbon it is the same in winter. */
    @ParameterizedTest
    @CsvSource({
        "epoch, 6B0A 9F1D",
        "year, 07EA",
        "month-day, 0B1C",
        "hour-minute, 091E",
        "second, 0500",
        "year.bcd, 2026",
        "month-day.bcd, 1128",
        "hour-minute.bcd, 0930",
        "second.bcd, 0500",
    })
    void aMomentLiesInItsRegisters(String form, String words) {
        Instant at = Instant.parse("2026-11-28T09:30:05Z");

        assertThat(written(form, new Shown.Moment(at, ZoneId.of("Europe/Lisbon"))))
                .isEqualTo(words);
    }

    @Test
    void partsOfAClockAreLocalAndSecondsSince1970AreNot() {
        Shown.Moment summer = new Shown.Moment(Instant.EPOCH.plusSeconds(86_400L * 180), ZoneId.of("Europe/Lisbon"));

        assertThat(written("hour-minute", summer)).isEqualTo("0100");
    }

    @ParameterizedTest
    @CsvSource({"text3, QG-1, 5147 2D31 0000", "text2/swapped, QG-1, 4751 312D"})
    void aTextLiesInItsRegisters(String form, String text, String words) {
        assertThat(written(form, new Shown.Text(text))).isEqualTo(words);
    }

    @Test
    void bitsOfARegisterLieBesideEachOther() {
        Forms.of("bits1-4", 1).write(cells, HOLDING_REGISTER, 9, new Shown.Steps(5));
        Forms.of("bit16", 1).write(cells, HOLDING_REGISTER, 9, new Shown.Steps(1));

        assertThat(cells.read(HOLDING_REGISTER, 9, 1)).hasValue(new int[] {0x8005});
        assertThatThrownBy(() -> Forms.of("bit3", 1).write(cells, HOLDING_REGISTER, 9, new Shown.Steps(0)))
                .hasMessageContaining("9 is used twice");
    }

    @ParameterizedTest
    @ValueSource(strings = {"u17", "bit16", "bits3-2", "u16/backwards", "text"})
    void aFormThatIsNoneIsRefused(String word) {
        assertThatThrownBy(() -> Forms.of(word, 0)).isInstanceOf(IllegalArgumentException.class);
    }

    private String written(String word, Shown value) {
        Form form = Forms.of(word, 0);
        form.write(cells, HOLDING_REGISTER, 100, value);
        return Arrays.stream(cells.read(HOLDING_REGISTER, 100, form.words()).orElseThrow())
                .mapToObj(w -> HexFormat.of().toHexDigits((short) w).toUpperCase(Locale.ROOT))
                .collect(Collectors.joining(" "));
    }
}
