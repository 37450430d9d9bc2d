package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
    void checkShowsBothNumberingsTheObjectsAndThatNothingIsWritable() {
        assertThat(execute("check", folder.toString(), "--bind")).isEqualTo(ExitCode.FINE);
        assertThat(out.toString())
                .contains("2 bindings added to ")
                .contains("input-register 3 (wire 2)")
                .contains("analog-input 1001")
                .contains("binary-input 1002")
                .contains("Line annex: 127.0.0.1:1502, 2 reads, 1.00 a second")
                .contains("BACnet: device 711001")
                .contains("plant/quillmere/<controller>/<point>")
                .contains("Writable: nothing.")
                .contains(Caution.SHORT)
                .contains("0 errors, 0 warnings.");
        assertThat(folder.resolve("bindings.csv")).exists();
    }

    @Test
    void checkWithWarningsOnlyEndsWithOneAndWritesNothing() {
        assertThat(execute("check", folder.toString())).isEqualTo(ExitCode.WARNINGS);
        assertThat(out.toString())
                .contains("warning: bindings.csv: 2 points have no binding")
                .contains("not bound");
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
