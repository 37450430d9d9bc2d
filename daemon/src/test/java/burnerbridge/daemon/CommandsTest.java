package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteSchema;
import burnerbridge.site.QuillmereWithPermits;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

class CommandsTest {
    private static final String SITE = """
            site: quillmere
            description: an invented grower
            time-zone: Europe/Lisbon
            lines:
              annex: {tcp: {host: 127.0.0.1, port: 1502}}
            types:
              hot-water: {points: points.csv, numbering: data-model}
            controllers:
              boiler-1: {line: annex, unit: 1, type: hot-water, instance-base: 1000}
            bacnet: {device-instance: 711001, bind: 127.0.0.1}
            mqtt: {brokers: ['tcp://127.0.0.1:1883'], root: plant}
            """;

    private static final String POINTS = """
            name,table,address,format,scale,unit,role
            flue-temperature,input-register,3,uint16,0.1,°C,measurement
            flame,discrete-input,1,bit,,,status
            """;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @BeforeEach
    void write() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE);
        Files.writeString(folder.resolve("points.csv"), POINTS);
    }

    private int execute(String... arguments) {
        CommandLine commandLine = Main.commandLine();
        commandLine.setOut(new PrintWriter(out, true));
        commandLine.setErr(new PrintWriter(err, true));
        return commandLine.execute(arguments);
    }

    @Test
    void documentsOfTheTopicsAreWrittenIntoAFolderThatIsMade() throws IOException {
        Path to = folder.resolve("handed/over");
        assertThat(execute("documents", folder.toString(), "--to", to.toString()))
                .isEqualTo(ExitCode.FINE);
        assertThat(Files.readString(to.resolve("mqtt-asyncapi.json")))
                .contains("plant/quillmere/{controller}/flue-temperature");
        assertThat(Files.readString(to.resolve("mqtt-payload.schema.json"))).contains("point.hot-water.flame");
        assertThat(Files.readString(to.resolve("mqtt-access-list.txt"))).contains("topic write plant/quillmere/+/+");
        assertThat(out.toString()).contains(to.resolve("mqtt-asyncapi.json").toString());
    }

    @Test
    void whatMayBeWrittenIsADocumentWithTheCaution() throws IOException {
        Path site = folder.resolve("permitted");
        QuillmereWithPermits.writeTo(site);
        Path to = folder.resolve("handed");
        assertThat(execute("documents", site.toString(), "--to", to.toString())).isEqualTo(ExitCode.FINE);
        assertThat(Files.readString(to.resolve("write-permits.txt")))
                .startsWith("Site quillmere: write permits")
                .contains("Writable: 5 points, and nothing else")
                .contains("boiler-1.load-limit", "holding-register 45 (wire 44)", "after 15 min: write 20 %")
                .contains("this is not a safety device");
        assertThat(execute(
                        "documents",
                        folder.toString(),
                        "--to",
                        to.resolve("other").toString()))
                .isEqualTo(ExitCode.FINE);
        assertThat(to.resolve("other").resolve("write-permits.txt")).doesNotExist();
    }

    @Test
    void noDocumentsAreWrittenOfASiteWithErrors() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), "site: Quillmere\n");
        Path to = folder.resolve("handed");
        assertThat(execute("documents", folder.toString(), "--to", to.toString()))
                .isEqualTo(ExitCode.BAD_INPUT);
        assertThat(Files.exists(to)).isFalse();
    }

    @Test
    void theSchemaIsPrintedAsItIsPublished() {
        assertThat(execute("schema")).isEqualTo(ExitCode.FINE);
        assertThat(out.toString()).isEqualTo(SiteSchema.text()).startsWith("{");
    }

    @Test
    void checkShowsBothNumberingsTheObjectsAndThatNothingIsWritable() {
        assertThat(execute("check", folder.toString(), "--bind")).isEqualTo(ExitCode.FINE);
        assertThat(out.toString())
                .contains("bindings.csv: hot-water.")
                .contains("2 changes in ")
                .contains("input-register 3 (wire 2)")
                .contains("analog-input 1001")
                .contains("binary-input 1002")
                .contains("Line annex: 127.0.0.1:1502, 2 reads, 1.00 a second")
                .contains("BACnet: device 711001")
                .contains("plant/quillmere/<controller>/<point>")
                .contains("Writable: nothing.")
                .contains(String.join(System.lineSeparator(), Caution.FULL))
                .contains("0 errors, 0 warnings.");
        assertThat(folder.resolve("bindings.csv")).exists();
    }

    @Test
    void checkListsTheTopicsThatAreNotAPoints() {
        execute("check", folder.toString(), "--bind");
        assertThat(out.toString().lines().map(line -> line.strip().replaceAll(" +", " ")))
                .contains(
                        "plant/quillmere/_self/link yes whether the bridge is there",
                        "plant/quillmere/_self/about yes the site, its controllers and groups",
                        "plant/quillmere/_self/events no the bridge started, stopped",
                        "plant/quillmere/boiler-1/link yes whether it answers",
                        "plant/quillmere/boiler-1/about yes what its points are",
                        "plant/quillmere/boiler-1/events no communication lost and back",
                        "plant/quillmere/boiler-1/<point> yes 2 points");
    }

    /** Certificates live on the box: what is nowhere on this machine is no reason to frown. */
    @Test
    void filesOfAnEncryptedConnectionAreToldWhereTheyAreNamedAndNeverAsErrors() throws IOException {
        Path elsewhere = folder.resolveSibling(folder.getFileName() + "-nowhere");
        writeEncrypted(elsewhere);
        assertThat(execute("check", folder.toString(), "--bind")).isEqualTo(ExitCode.FINE);
        assertThat(out.toString())
                .contains("note: site.yaml:12:15: mqtt.tls.ca: there is no file " + elsewhere
                        + "/ca.pem here; it has to be where the bridge runs")
                .contains("0 errors, 0 warnings.");

        Path here = Files.createDirectory(folder.resolveSibling(folder.getFileName() + "-files"));
        Files.writeString(here.resolve("ca.pem"), "no certificate");
        writeEncrypted(here);
        assertThat(execute("check", folder.toString())).isEqualTo(ExitCode.WARNINGS);
        assertThat(out.toString())
                .contains("warning: site.yaml:12:15: mqtt.tls.ca: " + here + "/ca.pem has no certificate in PEM")
                .contains("mqtt.password-file: there is no file " + here + "/password here")
                .contains("0 errors, 2 warnings.");
        assertThat(execute("check", folder.toString(), "--json")).isEqualTo(ExitCode.WARNINGS);
        assertThat(out.toString()).contains("\"line\":12,\"column\":15,\"message\":\"mqtt.tls.ca: ");
        Files.delete(here.resolve("ca.pem"));
        Files.delete(here);
    }

    @Test
    void theFileOfTheTokenIsToldWhereItIsNamedAndNeverAsAnError() throws IOException {
        execute("check", folder.toString(), "--bind");
        assertThat(out.toString()).contains("Web: off");
        Path elsewhere = folder.resolveSibling(folder.getFileName() + "-nowhere");
        writeWeb(elsewhere.resolve("web.token"));
        assertThat(execute("check", folder.toString())).isEqualTo(ExitCode.FINE);
        assertThat(out.toString())
                .contains("web.token-file: there is no file " + elsewhere + "/web.token here; it has to be where the"
                        + " bridge runs")
                .contains("Web: 192.0.2.10:9311, /health and /metrics, with a token");

        Path token = folder.resolveSibling(folder.getFileName() + "-token");
        Files.writeString(token, "too-short\n");
        Files.setPosixFilePermissions(token, PosixFilePermissions.fromString("rw-r--r--"));
        writeWeb(token);
        assertThat(execute("check", folder.toString())).isEqualTo(ExitCode.WARNINGS);
        assertThat(out.toString())
                .contains("web.token-file: the token in " + token + " must have 16 to 512 characters (has 9)")
                .contains("web.token-file: every user of this machine can read " + token + "; chmod 600 keeps it")
                .contains("0 errors, 2 warnings.")
                .doesNotContain("too-short");
        Files.writeString(token, "a-token-that-is-long-enough\n");
        Files.setPosixFilePermissions(token, PosixFilePermissions.fromString("rw-------"));
        assertThat(execute("check", folder.toString())).isEqualTo(ExitCode.FINE);
        Files.delete(token);
    }

    private void writeWeb(Path token) throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE + "web: {bind: 192.0.2.10, token-file: " + token + "}\n");
    }

    private void writeEncrypted(Path files) throws IOException {
        Files.writeString(
                folder.resolve("site.yaml"),
                SITE.replace(
                        "mqtt: {brokers: ['tcp://127.0.0.1:1883'], root: plant}",
                        "mqtt: {brokers: ['tls://192.0.2.5:8883'], root: plant, user: bridge,\n    tls: {ca: "
                                + files.resolve("ca.pem") + "}, password-file: " + files.resolve("password") + "}"));
    }

    @Test
    void aRenamedPointKeepsItsInstanceOnceSomebodyHasSaidSo() throws IOException {
        execute("check", folder.toString(), "--bind");
        String name = POINTS.lines().skip(1).findFirst().orElseThrow().split(",")[0];
        Files.writeString(folder.resolve("points.csv"), POINTS.replace(name + ",", "renamed,"));
        assertThat(execute("check", folder.toString(), "--bind")).isEqualTo(ExitCode.WARNINGS);
        assertThat(out.toString()).contains("--renamed hot-water." + name + "=renamed");
        assertThat(execute("check", folder.toString(), "--renamed", "a.b=c")).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(err.toString()).contains("--renamed and --not-renamed belong to --bind");
        assertThat(execute("check", folder.toString(), "--bind", "--renamed", "hot-water.x=renamed"))
                .isEqualTo(ExitCode.BAD_INPUT);
        assertThat(err.toString()).contains("hot-water.x has no binding").contains("Nothing was written.");
        assertThat(execute("check", folder.toString(), "--bind", "--renamed", "hot-water." + name + "=renamed"))
                .isEqualTo(ExitCode.FINE);
        assertThat(out.toString()).contains("hot-water." + name + " is now hot-water.renamed, ");
    }

    @Test
    void aSheetIsMadeIntoAPointListAndNeverOverAnother() throws IOException {
        Path workbook = folder.resolve("list.xlsx");
        try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(workbook))) {
            part(zip, "[Content_Types].xml", "<Types/>");
            part(
                    zip,
                    "xl/workbook.xml",
                    "<workbook xmlns:r='http://schemas.openxmlformats.org/officeDocument/2006/"
                            + "relationships'><sheets><sheet name='A' sheetId='1' r:id='r1'/></sheets></workbook>");
            part(zip, "xl/_rels/workbook.xml.rels", "<R><Relationship Id='r1' Target='worksheets/s.xml'/></R>");
            part(
                    zip,
                    "xl/worksheets/s.xml",
                    "<worksheet><sheetData><row r='1'>" + cell("A1", "name")
                            + cell("B1", "table") + cell("C1", "address") + "</row><row r='2'>" + cell("A2", "a")
                            + "<c r='C2'><v>40001</v></c></row></sheetData></worksheet>");
        }
        assertThat(execute("from-spreadsheet", workbook.toString())).isEqualTo(ExitCode.FINE);
        assertThat(out.toString()).isEqualTo("name,table,address\na,,40001\n");
        String target = folder.resolve("new.csv").toString();
        assertThat(execute("from-spreadsheet", workbook.toString(), "--out", target))
                .isEqualTo(ExitCode.FINE);
        assertThat(err.toString()).contains("Sheet 'A': header in row 1, 1 row written to " + target);
        assertThat(execute("from-spreadsheet", workbook.toString(), "--out", target))
                .isEqualTo(ExitCode.BAD_INPUT);
        assertThat(err.toString()).contains("is there already; --overwrite writes over it");
        assertThat(execute("from-spreadsheet", workbook.toString(), "--out", target, "--overwrite"))
                .isEqualTo(ExitCode.FINE);
        assertThat(execute("from-spreadsheet", target)).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(err.toString()).contains("error: " + target + " is no .xlsx, or a broken one");
    }

    private static void part(ZipOutputStream zip, String name, String text) throws IOException {
        zip.putNextEntry(new ZipEntry(name));
        zip.write(text.getBytes(StandardCharsets.UTF_8));
        zip.closeEntry();
    }

    private static String cell(String at, String text) {
        return "<c r='" + at + "' t='inlineStr'><is><t>" + text + "</t></is></c>";
    }

    @Test
    void checkWithWarningsOnlyEndsWithOneAndWritesNothing() {
        assertThat(execute("check", folder.toString())).isEqualTo(ExitCode.WARNINGS);
        assertThat(out.toString())
                .contains("warning: bindings.csv: 2 points have no binding")
                .contains("boiler-1.flame            it has no binding");
        assertThat(folder.resolve("bindings.csv")).doesNotExist();
    }

    @Test
    void checkWithErrorsEndsWithTwoAndBindsNothing() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE.replace("unit: 1", "unit: 300"));
        assertThat(execute("check", folder.toString(), "--bind")).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(out.toString())
                .contains("error: site.yaml:9:33: controllers.boiler-1.unit: must be 0 to 255 (was 300)")
                .contains("1 error, 1 warning; the bridge would not start.");
        assertThat(folder.resolve("bindings.csv")).doesNotExist();
    }

    @Test
    void runDoesNotStartOnASiteWithErrors() throws IOException {
        Files.writeString(folder.resolve("points.csv"), POINTS.replace("uint16", "unit16"));
        assertThat(execute("run", folder.toString())).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(err.toString())
                .contains("error: points.csv:2:35: format: must be one of")
                .contains("did you mean 'uint16'?")
                .contains("The bridge was not started");
    }

    @Test
    void valuesOfASiteWithErrorsAreNotShown() throws IOException {
        Files.writeString(folder.resolve("points.csv"), POINTS.replace("uint16", "unit16"));
        assertThat(execute("values", folder.toString())).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(err.toString())
                .contains("error: points.csv:2:35: format: must be one of")
                .contains("has errors.");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '~',
            value = {
                "--quality gud ~ --quality: must be good, uncertain, stale or bad (was 'gud')",
                "--every 0.1 ~ --every: must be 0.2 to 60 s (was 0.1)",
                "--every NaN ~ --every: must be 0.2 to 60 s (was NaN)",
                "--wait 3601 ~ --wait: must be 0 to 3600 s (was 3601)",
                "boiler.1.x ~ points are chosen as CONTROLLER or CONTROLLER.POINT",
                "--plan boiler-1 ~ --plan shows whole lines: no points, --quality or --addresses with it",
                "--csv --json ~ --csv and --json: one of them",
            })
    void whatValuesCannotDoIsToldBeforeAnythingIsOpened(String options, String words) {
        List<String> arguments = new ArrayList<>(List.of("values", folder.toString()));
        arguments.addAll(List.of(options.split(" ")));
        arguments.addAll(List.of("--state", folder.resolve("state").toString()));
        assertThat(execute(arguments.toArray(String[]::new))).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(err.toString()).contains("error: " + words);
        assertThat(folder.resolve("state")).doesNotExist();
    }

    @Test
    void aStateFolderThatCannotBeHadIsToldAndNothingStarts() throws IOException {
        Path file = Files.createFile(folder.resolve("file"));
        assertThat(execute("run", folder.toString(), "--state", file.toString()))
                .isEqualTo(ExitCode.COULD_NOT_REACH);
        assertThat(err.toString())
                .contains("The bridge was not started: the state folder " + file + " cannot be used")
                .doesNotContain("Exception");
        assertThat(execute("values", folder.toString(), "--state", file.toString()))
                .isEqualTo(ExitCode.COULD_NOT_REACH);
        assertThat(err.toString()).contains("error: the state folder " + file);
    }

    @Test
    void aFolderThatIsNotThereIsBadInput() {
        assertThat(execute("check", folder.resolve("nowhere").toString())).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(out.toString()).contains("error: site.yaml: is missing in ");
    }

    @Test
    void anUnknownCommandIsBadInput() {
        assertThat(execute("rnu", folder.toString())).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(err.toString()).contains("rnu").contains("run");
    }

    @Test
    void noCommandAtAllShowsWhatThereIs() {
        assertThat(execute()).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(err.toString()).contains("check").contains("run");
    }

    @Test
    void theHelpCarriesTheCaution() {
        assertThat(execute("--help")).isEqualTo(ExitCode.FINE);
        assertThat(out.toString().replaceAll("\\s+", " ")).contains(Caution.SHORT);
    }
}
