package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** That nothing is missing in the sheet which every device is read with. */
class PointSheetTest {
    private static final String[] ORDERS = {
        "high-word-first", "low-word-first", "high-word-first+swap-bytes", "low-word-first+swap-bytes"
    };

    private static List<PointSheet.Row> rowsOf(String format) {
        return PointSheet.allRows()
                .filter(row -> row.sheet() == PointSheet.EXPLICIT)
                .filter(row -> row.format().equals(format))
                .filter(row -> row.reason().equals("none"))
                .toList();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "uint32",
                "int32",
                "uint64",
                "int64",
                "float32",
                "float64",
                "bcd32",
                "decimal-words:2",
                "decimal-words:3",
                "decimal-words:4",
                "text:3",
                "epoch32"
            })
    void aFormatOfSeveralRegistersStandsInItInEachOrder(String format) {
        assertThat(rowsOf(format)).extracting(PointSheet.Row::order).contains(ORDERS);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "uint16",
                "int16",
                "uint8-high",
                "uint8-low",
                "int8-high",
                "int8-low",
                "sign-magnitude16",
                "bcd16",
                "bit",
                "bit:0",
                "bits:4-7",
                "datetime:y-m-d-h-n-s",
                "datetime:y-md-hn-sx",
                "datetime:ym-dh-nx+bcd"
            })
    void aFormatWithoutOrderStandsInItToo(String format) {
        assertThat(rowsOf(format)).isNotEmpty();
    }

    @Test
    void everyReasonThatARegisterCanGiveStandsInIt() {
        assertThat(PointSheet.allRows().map(PointSheet.Row::reason))
                .contains(
                        "none",
                        "unknown-state",
                        "no-sensor",
                        "over-range",
                        "under-range",
                        "not-a-number",
                        "unreadable");
    }
}
