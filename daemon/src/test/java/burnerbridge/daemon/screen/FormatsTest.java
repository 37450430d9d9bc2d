package burnerbridge.daemon.screen;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Reason;
import burnerbridge.values.AskedFor;
import burnerbridge.values.PointRow.Shown;
import burnerbridge.values.Query;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FormatsTest {
    private static final Query ALL = new Query(List.of(), Set.of(), 0, Integer.MAX_VALUE);

    private final Rows rows = new Rows();
    private final StringWriter out = new StringWriter();

    private String printed(RowFormat format) throws Exception {
        PrintWriter writer = new PrintWriter(out);
        format.print(rows, ALL, writer);
        writer.flush();
        return out.toString();
    }

    @Test
    void csvHasExactValuesAndEverythingThatIsKnown() throws Exception {
        Map<String, Object> state = new LinkedHashMap<>(Map.of("number", new BigDecimal("31")));
        state.put("text", "firing, high");
        rows.rows.add(Rows.good("phase", "001F", state, "firing, high", ""));
        rows.rows.add(Rows.good("energy", "FFFF", "18446744073709551615", "18446744073709551615", "kWh"));
        rows.rows.add(Rows.not(Reason.REFUSED, "nowhere", Rows.number("-4.50")));
        assertThat(printed(new CsvFormat()).lines().skip(1))
                .containsExactly(
                        "boiler-1,phase,holding-register,40101,100,001F,31,\"firing, high\",,good,,,"
                                + "2026-11-25T08:00:00.250Z,1.500,,,,,,,,,",
                        "boiler-1,energy,holding-register,40101,100,FFFF,18446744073709551615,18446744073709551615,"
                                + "kWh,good,,,2026-11-25T08:00:00.250Z,1.500,,,,,,,,,",
                        "boiler-1,nowhere,holding-register,40101,100,,,,,bad,refused,2,2026-11-25T08:00:00.250Z,1.500,"
                                + "-4.50,2026-11-25T08:00:00.250Z,,,,,,,");
    }

    @Test
    void whoAsksForWhatIsInTheLastColumnsOfTheCsvAndAMemberInJson() throws Exception {
        AskedFor asked = new AskedFor(
                AskedFor.State.WAITS,
                12,
                Rows.number("35.5"),
                "mqtt plant optimiser",
                Duration.ofMillis(893_120),
                "boiler-1 does not answer: no reply",
                Duration.ofSeconds(12),
                OptionalLong.of(99_000));
        rows.rows.add(Rows.asked(Rows.good("load-demand", "0163", new BigDecimal("35.5"), "35.5", "%"), asked));
        assertThat(printed(new CsvFormat()).lines().skip(1))
                .singleElement()
                .asString()
                .endsWith(
                        "1.500,,,waits,12,35.5,mqtt plant optimiser,893.120,boiler-1 does not answer: no reply,99000");
        assertThat(printed(new JsonFormat("quillmere", "here")))
                .contains(
                        "\"asked\":{\"state\":\"waits\",\"slot\":12,\"value\":35.5,\"text\":\"35.5\","
                                + "\"by\":\"mqtt plant optimiser\",\"left\":893.120,"
                                + "\"why\":\"boiler-1 does not answer: no reply\",\"untilNextWrite\":12.000,\"writesLeft\":99000}");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '~',
            quoteCharacter = '"',
            value = {
                "=1+2 ~ '=1+2",
                "+cmd ~ '+cmd",
                "-cmd ~ '-cmd",
                "@sum ~ '@sum",
                "-4.5 ~ -4.5",
                "+4 ~ +4",
                "-4=1 ~ '-4=1",
                "a=b ~ a=b",
            })
    void whatASpreadsheetWouldRunIsMadeText(String cell, String written) {
        assertThat(CsvCells.line(List.of(cell))).isEqualTo(written);
    }

    @Test
    void quotesAndLineEndsStayInTheirCell() {
        assertThat(CsvCells.line(List.of("a\"b", "c\nd", "e,f", "=\"x\"")))
                .isEqualTo("\"a\"\"b\",\"c\nd\",\"e,f\",\"'=\"\"x\"\"\"");
    }

    @Test
    void jsonIsOneObjectWithAPointOnEachLine() throws Exception {
        rows.rows.add(Rows.good("starts", "1076", new BigDecimal("4214"), "4214", ""));
        rows.rows.add(Rows.not(Reason.NO_REPLY, "old", new Shown(new BigDecimal("7"), "7")));
        String json = printed(new JsonFormat("quillmere", "from \"here\""));
        assertThat(burnerbridge.control.JsonLine.parse(json))
                .containsEntry("site", "quillmere")
                .containsEntry("source", "from \"here\"")
                .containsEntry("at", "2026-11-25T08:00:00.250Z")
                .extractingByKey("points")
                .asInstanceOf(org.assertj.core.api.InstanceOfAssertFactories.LIST)
                .hasSize(2);
        assertThat(json.lines()).hasSize(4);
    }

    @Test
    void anEmptyTableIsStillJson() throws Exception {
        assertThat(burnerbridge.control.JsonLine.parse(printed(new JsonFormat("quillmere", "here"))))
                .containsEntry("points", List.of());
    }
}
