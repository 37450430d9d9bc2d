package burnerbridge.config.csv;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CsvLineTest {

    /** The starts that OWASP lists under "CSV Injection" (from memory), and what is none of them. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "=1+1 # '=1+1",
                "+cmd # '+cmd",
                "-1=2|0=1 # '-1=2|0=1",
                "@sum # '@sum",
                "-20..150 # '-20..150",
                "\uFF1D1 # '\uFF1D1",
                "'=x # ''=x",
                "-5 # -5",
                "+0.5 # +0.5",
                "-1.5E-3 # -1.5E-3",
                "plain # plain",
                "'tis # 'tis",
                "a,b # \"a,b\"",
                "=\"a\",b # \"'=\"\"a\"\",b\""
            })
    void whatASpreadsheetWouldRunIsNeutralised(String text, String expected) {
        assertThat(CsvLine.cell(text, ',')).isEqualTo(expected);
    }

    @Test
    void tabsAndLineEndsInFrontAreNeutralisedAndQuoted() {
        assertThat(CsvLine.cell("\t=1", ',')).isEqualTo("\"'\t=1\"".replace("\"", ""));
        assertThat(CsvLine.cell("\r=1", ',')).isEqualTo("\"'\r=1\"");
        assertThat(CsvLine.cell(" padded", ',')).isEqualTo("\" padded\"");
    }

    @Test
    void theSeparatorDecidesWhatIsQuoted() {
        assertThat(CsvLine.of(List.of("a;b", "c,d", ""), ';')).isEqualTo("\"a;b\";c,d;");
        assertThat(CsvLine.of(List.of("a;b", "c,d", ""), ',')).isEqualTo("a;b,\"c,d\",");
    }
}
