package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import burnerbridge.site.PointDefinition;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Point lists as spreadsheets save them: read as they were meant, or told plainly. */
class SpreadsheetHabitsTest {
    private static final String FILE = "points/hot-water.csv";
    private static final String LIST = "name,description,table,address,format,role,scale,offset,valid,unit\n"
            + "water,Caf\u00E9 \u00B0,holding-register,101,int16,measurement,0.1,-5,-20..150,\u00B0C\n";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder);
    }

    private SiteFolder load(String text, Charset charset) throws IOException {
        Files.write(folder.resolve(FILE), text.getBytes(charset));
        return files.load();
    }

    private PointDefinition only() {
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        return loaded.site().orElseThrow().points().get(0).definition();
    }

    private void isReadRight() {
        PointDefinition water = only();
        assertThat(water.wireAddress()).isEqualTo(100);
        assertThat(water.description()).isEqualTo("Caf\u00E9 \u00B0");
        assertThat(water.scaling().step()).isEqualByComparingTo("0.1");
        assertThat(water.scaling().apply(BigDecimal.ZERO)).isEqualByComparingTo("-5");
        assertThat(water.limits().valid().orElseThrow().low()).isEqualByComparingTo("-20");
        assertThat(water.unit().symbol()).isEqualTo("\u00B0C");
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-8", "windows-1252", "UTF-16LE", "UTF-16BE"})
    void everyEncodingOfASpreadsheetIsRead(String name) throws IOException {
        load(LIST, Charset.forName(name));
        isReadRight();
        assertThat(files.load().problems().stream().map(Problem::toString))
                .filteredOn(p -> p.contains("read as"))
                .hasSize(name.equals("UTF-8") ? 0 : 1)
                .allMatch(p ->
                        p.equals(FILE + ": is not UTF-8 and was read as " + name + "; look at its accents and \u00B0"));
        if (!name.equals("windows-1252")) {
            load('\uFEFF' + LIST, Charset.forName(name));
            isReadRight();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {",", ";", "\t"})
    void everySeparatorIsReadWithLineEndsOfEachKind(String separator) throws IOException {
        for (String end : List.of("\n", "\r\n", "\r")) {
            load(LIST.replace(",", separator).replace("\n", end), StandardCharsets.UTF_8);
            isReadRight();
            load("sep=" + separator + end + LIST.replace(",", separator).replace("\n", end), StandardCharsets.UTF_8);
            isReadRight();
            load(
                    LIST.replace(",", separator).replace("\n", separator.repeat(3) + end + separator.repeat(12) + end),
                    StandardCharsets.UTF_8);
            isReadRight();
        }
    }

    @Test
    void commasWithinQuotesOfTheHeaderAreNoSeparators() throws IOException {
        load(
                "\"name\";\"note-a,b,c,d,e,f\";table;address;format;role\na;x,y;coil;1;bit;status\n",
                StandardCharsets.UTF_8);
        assertThat(only().name().text()).isEqualTo("a");
    }

    @Test
    void lineEndsWithinAQuotedCellCountAsLinesOfTheFile() throws IOException {
        load(
                "name,description,table,address,format,role\n"
                        + "a,\"two\nlines, \"\"quoted\"\"\",coil,1,bit,status\n\nb,\"x\r\n\r\ny\",coil,0,bit,status\n",
                StandardCharsets.UTF_8);
        assertThat(files.errors()).singleElement().asString().startsWith(FILE + ":7:9: address: must be 1 to 65536");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "a,\"open,coil,1,bit,status\\nb,,coil,2,bit,status # 2:3",
                "a,\"one\" two,coil,1,bit,status # 2:3",
                "a,ok,coil,1,bit,status\\nb,\"x\\ny\",coil,2,bit,status\\nc,\"oh,coil,3,bit,status # 5:3"
            })
    void aQuoteThatIsMissingIsToldWhereTheCellBegins(String rows, String place) throws IOException {
        load("name,description,table,address,format,role\n" + rows.replace("\\n", "\n"), StandardCharsets.UTF_8);
        assertThat(files.errors())
                .singleElement()
                .asString()
                .startsWith(FILE + ":" + place + ": is not CSV: the quoted cell that begins here");
    }

    /** What a cell holds, under which column, in a file with which separator; what it must be read as. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "scale # ; # 0,1 # 0.1",
                "scale # TAB # -0,25 # -0.25",
                "scale # ; # 0.1 # 0.1",
                "scale # ; # 1,00E-01 # 0.1",
                "scale # , # 1E-1 # 0.1",
                "scale # ; # 1.234 # 1.234",
                "scale # ; # 1,234 # 1.234",
                "scale # , # '0.5 # 0.5",
                "scale # , # \u22120.5 # -0.5",
                "scale # ; # \u20130,5 # -0.5",
                "scale # , # \u00A00.5\u00A0 # 0.5",
                "scale # , # \u200B0.5 # 0.5",
                "offset # ; # 1,5 # 1.5",
                "address # , # 0101 # 100",
                "address # , # 101.0 # 100",
                "address # ; # 101,00 # 100",
                "address # , # '101 # 100",
                "address # , # \u00A0101 # 100",
                "valid # ; # -20,5..150,5 # -20.5",
                "valid # , # \u221220.5..150 # -20.5",
                "valid # , # -20.5\u2026150 # -20.5",
                "states # , # \u22121=fault|0=ok # -1",
                "states # , # '-1=fault|0=ok # -1",
                "states # ; # -1=it's 1,5 \u2013 high|0=ok # -1",
                "description # , # '=2+3 # =2+3",
                "description # , # 'tis \u2013 so # 'tis \u2013 so"
            })
    void whatWasMeantIsRead(String column, String separator, String cell, String expected) throws IOException {
        oneCell(column, separator.replace("TAB", "\t"), cell);
        PointDefinition point = only();
        String read = switch (column) {
            case "scale" ->
                point.scaling()
                        .apply(BigDecimal.ONE)
                        .subtract(point.scaling().apply(BigDecimal.ZERO))
                        .stripTrailingZeros()
                        .toPlainString();
            case "offset" -> point.scaling().apply(BigDecimal.ZERO).toPlainString();
            case "address" -> String.valueOf(point.wireAddress());
            case "valid" -> point.limits().valid().orElseThrow().low().toPlainString();
            case "states" -> point.states().texts().keySet().iterator().next().toString();
            default -> point.description();
        };
        assertThat(read).isEqualTo(expected);
    }

    private void oneCell(String column, String separator, String cell) throws IOException {
        boolean address = column.equals("address");
        List<String> header = address
                ? List.of("name", "table", "format", "role", "address")
                : List.of("name", "table", "format", "role", "address", column);
        List<String> row = address
                ? List.of("a", "holding-register", "int16", "status", cell)
                : List.of("a", "holding-register", "int16", "status", "1", cell);
        load(String.join(separator, header) + "\n" + String.join(separator, row) + "\n", StandardCharsets.UTF_8);
    }

    /** What cannot be read right, and what is said of how it probably came to be. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "scale # , # \"0,1\" # a decimal comma is read only in a file whose columns are separated by semicolons",
                "scale # , # \"1,234\" # it may hold a separator of thousands",
                "scale # ; # 1.234,5 # it has both a point and a comma",
                "scale # , # \"1,234.5\" # it has both a point and a comma",
                "scale # , # 02-Jan # a spreadsheet makes dates",
                "scale # ; # 03.Jan # a spreadsheet makes dates",
                "scale # , # 1. M\u00E4rz # a spreadsheet makes dates",
                "scale # , # 03/01/2026 # a spreadsheet makes dates",
                "valid # , # 2026-01-02 00:00:00 # a spreadsheet makes dates",
                "address # , # Mai 26 # a spreadsheet makes dates",
                "address # , # 4E5 # a spreadsheet shortens long numbers",
                "address # ; # 4,00E+05 # a spreadsheet shortens long numbers",
                "address # , # 40 001 # it may hold a separator of thousands",
                "address # , # 40.001 # it may hold a separator of thousands",
                "address # , # `#REF!` # it is a formula or its failure",
                "address # , # `#####` # a spreadsheet saved this of a column that was too narrow",
                "address # , # =A1+1 # it is a formula or its failure",
                "states # , # FALSCH # a spreadsheet shows truth values so",
                "object # , # TRUE # a spreadsheet shows truth values so",
                "unit # , # VERDADERO # a spreadsheet shows truth values so",
                "unit # , # \u201C%\u201D # it holds typographic quotes"
            })
    void whatASpreadsheetMadeOfItIsTold(String column, String separator, String cell, String hint) throws IOException {
        oneCell(column, separator, cell);
        assertThat(files.errors()).singleElement().asString().contains(":2:").contains("; " + hint);
    }

    @Test
    void aPointInAFileOfDecimalCommasMayBeAThousand() throws IOException {
        load(
                "name;table;format;role;address;scale;change\na;coil;bit;status;1;;\n"
                        + "b;holding-register;uint16;status;1;0,5;12.500\nc;holding-register;uint16;status;2;0.125;\n",
                StandardCharsets.UTF_8);
        assertThat(files.errors())
                .containsExactly(FILE + ":3:40: change: could be 12500 or 12.5, since other cells of this file have"
                        + " decimal commas (was '12.500'); write it without a separator of thousands, or with a comma");
    }

    @Test
    void whatIsNoTextIsSaidToBeNone() throws IOException {
        assertOnlyError("PK\u0003\u0004", "is a workbook under the name of a CSV file");
        assertOnlyError("\u00D0\u00CF\u0011\u00E0", "is a workbook under the name of a CSV file");
        assertOnlyError("a\u0000b\u0000c", "is neither UTF-8 nor another text");
        assertOnlyError("name,\u0000", "is neither UTF-8 nor another text");
        assertOnlyError("\u0081\u008D", "is neither UTF-8 nor another text");
    }

    private void assertOnlyError(String bytes, String expected) throws IOException {
        load(bytes, StandardCharsets.ISO_8859_1);
        assertThat(files.errors()).singleElement().asString().contains(expected);
    }

    @Test
    void aProblemIsOneLineWhateverACellHolds() throws IOException {
        load("name,table,address,format,role\n\"a\nb\u001B[31m\",coil,1,bit,status\n", StandardCharsets.UTF_8);
        assertThat(files.errors()).singleElement().asString().contains("(was 'a b?[31m')");
    }
}
