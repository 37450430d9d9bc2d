package burnerbridge.bacnet.documents;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.PermittedPlant;
import burnerbridge.bacnet.Plant;
import burnerbridge.model.HandClock;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

final class BacnetDocumentsTest {
    private final Plant plant = new Plant(new HandClock());
    private final List<Document> documents = BacnetDocuments.of(Plant.settings(47808), plant.site, new HandClock());

    private String text(String name) {
        return documents.stream()
                .filter(d -> d.name().equals(name))
                .findFirst()
                .orElseThrow()
                .text();
    }

    private List<String[]> rows(String name) {
        return Arrays.stream(text(name).split("\r\n"))
                .filter(line -> !line.startsWith("#"))
                .map(line -> line.split(";", -1))
                .filter(cells -> cells.length > 2)
                .toList();
    }

    @Test
    void theTableHasARowForEachObjectAndTheColumnsOfItsLayout() {
        assertThat(rows("ede.csv"))
                .hasSize(19)
                .allSatisfy(cells -> assertThat(cells).hasSize(17));
        assertThat(rows("ede-16-columns.csv"))
                .hasSize(19)
                .allSatisfy(cells -> assertThat(cells).hasSize(16));
        assertThat(text("ede.csv")).contains("VERSION_OF_LAYOUT;2.3\r\n").contains("PROJECT_NAME;quillmere\r\n");
    }

    @Test
    void aRowSaysWhatTheObjectIs() {
        String[] row = rows("ede.csv").stream()
                .filter(cells -> cells[0].equals("boiler-1.flue-temperature"))
                .findFirst()
                .orElseThrow();
        assertThat(row)
                .containsExactly(
                        "boiler-1.flue-temperature",
                        "3",
                        "boiler-1.flue-temperature",
                        "0",
                        "5",
                        "the flue-temperature of a boiler",
                        "",
                        "",
                        "",
                        "N",
                        "Y",
                        "",
                        "",
                        "",
                        "62",
                        "boiler-house unit 1 holding-register 101 (wire 100)",
                        "");
    }

    @Test
    void textsOfStatesAreReferredTo() {
        String[] row = rows("ede.csv").stream()
                .filter(cells -> cells[0].equals("boiler-2.phase"))
                .findFirst()
                .orElseThrow();
        assertThat(text("ede-state-texts.csv"))
                .contains("\r\n" + row[13] + ";standby;purge;ignition;run;lockout\r\n")
                .contains(";does not answer;answers\r\n");
        assertThat(text("ede-units.csv")).contains("62;°C\r\n");
    }

    @Test
    void theStatementHoldsWhatIsServedAndClaimsNoBlessing() {
        String statement = text("bacnet-conformance.md");
        assertThat(statement)
                .contains("| ReadRange | | x |", "- DS-COVP-B", "but for DS-WP-B", "| structured-view |")
                .doesNotContain("DS-WP-B\n", "TimeSynchronization");
        assertThat(statement.toLowerCase(Locale.ROOT)).doesNotContain("certified", "listed", "tested");
    }

    @Test
    void whatCanBeAskedForIsSettableAndStatedWithTheCaution() {
        Plant permitted = PermittedPlant.plant(new HandClock());
        List<Document> ofPermits =
                BacnetDocuments.of(Plant.settings(47808), PermittedPlant.permitted(permitted), new HandClock());
        String table = ofPermits.get(0).text();
        assertThat(table)
                .contains("#Caution: this is not a safety device")
                .contains(
                        "boiler-1.demand-request;3;boiler-1.demand-request;2;50;the demand of a boiler (request);30.0;20.0;"
                                + "90.0;Y;Y;;;;98;boiler-house unit 1 holding-register 101 (wire 100);\r\n")
                .contains("boiler-1.demand;3;boiler-1.demand;0;5;the demand of a boiler;;;;N;Y;")
                .contains(
                        "boiler-1.demand-lease;3;boiler-1.demand-lease;2;60;Seconds that boiler-1.demand-request holds"
                                + " unless it is asked for again;;;;N;Y;;;;73;;\r\n")
                .contains("boiler-1.mode-request;3;boiler-1.mode-request;19;52;");
        assertThat(table.lines().filter(line -> line.contains(";Y;Y;"))).hasSize(4);
        assertThat(table).doesNotContain("beat-request");
        assertThat(ofPermits.get(3).text()).contains("73;s\r\n");
        String statement = ofPermits.get(4).text();
        assertThat(statement)
                .contains(
                        "Caution: this is not a safety device",
                        "- DS-WP-B\n",
                        "- DS-WPM-B\n",
                        "| WriteProperty | | x |")
                .contains(
                        "| WritePropertyMultiple | | x |",
                        "| analog-value 50 | boiler-1.demand-request | 20.0 to 90.0 |")
                .contains("priority-array", "relinquish-default")
                .doesNotContain("Nothing is writable", "but for DS-WP-B");
    }

    @Test
    void whatASpreadsheetWouldRunIsNotRun() {
        assertThat(Cells.line(List.of("=1+1", "a;b", "say \"x\"", "two\nlines")))
                .isEqualTo("'=1+1;\"a;b\";\"say \"\"x\"\"\";two lines\r\n");
    }
}
