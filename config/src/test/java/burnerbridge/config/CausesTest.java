package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.binding.BindingChoices;
import burnerbridge.config.problem.Problem;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Severity;
import burnerbridge.site.States;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Fault causes as a table of their own, and texts in several languages. */
class CausesTest {
    private static final String CAUSES = """
            number,text,severity,text.pt,note-page
            0,none,information,sem causa,12
            0x0E,no pilot flame,lockout,sem chama piloto,12
            6,gas pressure low,fault,,13
            300,"flue damper, closed",,,
            """;
    private static final String HEADER = "name,description,text.pt,table,address,format,role,states,means\n";
    private static final String POINTS = HEADER + """
            cause,Why it stopped,Porque parou,input-register,1,uint16,status,,fault-cause
            first,An earlier one,,input-register,2,uint8-low,fault-record,,past-fault-cause
            second,,Anterior,input-register,3,uint16,fault-record,0=none|1=some,past-fault-cause
            other,,,input-register,4,uint16,status,,
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder);
        files.write("points/hot-water.csv", POINTS);
        files.write("codes/causes.csv", CAUSES);
        site("causes: codes/causes.csv, ", "");
    }

    private void site(String ofType, String language) {
        files.write(
                "site.yaml",
                SiteFiles.SITE.replace("{points:", "{" + ofType + "points:")
                        + (language.isEmpty() ? "" : "language: " + language + "\n"));
    }

    private List<PointDefinition> points() {
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        return loaded.site().orElseThrow().controllers().get(0).type().points();
    }

    private States states(int point) {
        return points().get(point).states();
    }

    private List<String> told(Problem.Severity severity) {
        return files.load().problems().stream()
                .filter(problem -> problem.severity() == severity)
                .map(Problem::toString)
                .toList();
    }

    @Test
    void aPointThatTellsTheCauseHasTheCausesAsItsStates() {
        assertThat(states(0).texts())
                .containsExactly(
                        Map.entry(0L, "none"),
                        Map.entry(14L, "no pilot flame"),
                        Map.entry(6L, "gas pressure low"),
                        Map.entry(300L, "flue damper, closed"));
        assertThat(states(0).severities())
                .isEqualTo(Map.of(0L, Severity.INFORMATION, 14L, Severity.LOCKOUT, 6L, Severity.FAULT));
    }

    @Test
    void onlyThatOneWithoutStatesOfItsOwn() {
        assertThat(states(2).texts()).containsExactly(Map.entry(0L, "none"), Map.entry(1L, "some"));
        assertThat(states(3).isEmpty()).isTrue();
    }

    @Test
    void aPointHasTheCausesThatItCanHold() {
        assertThat(states(1).texts()).containsOnlyKeys(0L, 14L, 6L);
        assertThat(told(Problem.Severity.NOTE))
                .anySatisfy(note -> assertThat(note)
                        .contains("points/hot-water.csv:3:")
                        .contains("format: of the 4 causes of its type, a uint8-low can hold 3"));
    }

    @Test
    void theFileIsReadAsASpreadsheetSavesIt() throws Exception {
        Files.write(
                folder.resolve("codes/causes.csv"),
                "number;text;severity\r\n\"7,0\";pressão baixa;fault\r\n".getBytes(Charset.forName("windows-1252")));
        assertThat(states(0).texts()).containsExactly(Map.entry(7L, "pressão baixa"));
    }

    @Test
    void causesArePinnedToTheirNumbersLikeAllStates() throws Exception {
        SiteFolder bound = files.load().bind(BindingChoices.NONE).site();
        assertThat(bound.problems()).noneMatch(Problem::isError);
        assertThat(Files.readString(folder.resolve("bindings.csv"))).contains("0=1|14=2|6=3|300=4");
        files.write("codes/causes.csv", "number,text\n5,new\n300,damper\n14,pilot\n0,none\n");
        files.load().bind(BindingChoices.NONE);
        assertThat(Files.readString(folder.resolve("bindings.csv"))).contains("0=1|14=2|6=3|300=4|5=5");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "number,text # nummer,text # 1:1: column 'nummer' is not known (known: number, text, severity, text.xx for another language, and note-… for notes of your own); did you mean 'number'?",
                "severity # text # 1:13: column 'text' stands here twice",
                "number,text # note-a,text # 1:1: column 'number' is missing",
                "text.pt # text.xq # 1:22: column 'text.xq': must be a language's code of two letters, or of three where it has none of two, like en or pt (was 'xq')",
                "0x0E # E # 3:1: number: must be a whole number as the controller sends it, decimal or with 0x (was 'E')",
                "0x0E # `` # 3:1: number: is empty; every row needs one",
                "0x0E # 0 # 3:1: number: cause 0 stands in line 2 already",
                "0x0E # 6 # 4:1: number: cause 6 stands in line 3 already",
                "no pilot flame # `` # 3:6: text: is empty; every row needs one",
                "lockout # lock-out # 3:21: severity: must be one of information, warning, fault, lockout (was 'lock-out'); did you mean 'lockout'?",
                "lockout # 3 # 3:21: severity: must be one of information, warning, fault, lockout (was '3')",
                "\"flue damper, closed\" # flue damper, closed,,,, # 5:"
            })
    void aMistakeIsToldWithItsPlace(String from, String to, String expected) {
        assertThat(CAUSES).contains(from);
        files.write("codes/causes.csv", CAUSES.replaceFirst(Pattern.quote(from), to));
        assertThat(files.errors()).anySatisfy(e -> assertThat(e).startsWith("codes/causes.csv:" + expected));
    }

    @Test
    void aFileOfTwoTypesIsToldOfOnce() {
        files.write("codes/causes.csv", CAUSES.replace("lockout", "lock"));
        files.write(
                "site.yaml",
                SiteFiles.SITE.replace(
                        "types:\n",
                        "types:\n  b: {causes: codes/causes.csv, points: points/hot-water.csv, numbering: wire}\n"
                                + "  c: {causes: codes/causes.csv, points: points/hot-water.csv, numbering: wire}\n"));
        assertThat(files.errors()).singleElement().asString().startsWith("codes/causes.csv:3:");
    }

    @Test
    void aFileThatIsNotThereIsToldWhereItIsNamed() {
        site("causes: codes/cause.csv, ", "");
        assertThat(files.errors())
                .containsExactly("site.yaml:7:23: types.hot-water.causes: must be a file in the site folder, like"
                        + " codes/causes.csv (was 'codes/cause.csv')");
    }

    @Test
    void moreCausesThanAMultiStateObjectHasAreTold() {
        files.write(
                "codes/causes.csv",
                IntStream.rangeClosed(1, 2001)
                        .mapToObj(number -> number + ",cause")
                        .collect(Collectors.joining("\n", "number,text\n", "\n")));
        assertThat(files.errors()).singleElement().asString().contains("holds at most 2000 causes");
    }

    @Test
    void causesThatNobodyUsesAreTold() {
        files.write("points/hot-water.csv", POINTS.replaceAll(",,(past-)?fault-cause", ",,"));
        assertThat(told(Problem.Severity.WARNING))
                .anySatisfy(warning -> assertThat(warning).contains("the causes of codes/causes.csv are not used"));
    }

    @Test
    void textsAreShownInTheChosenLanguageWhereThereAreAny() {
        site("causes: codes/causes.csv, ", "pt");
        assertThat(points())
                .extracting(PointDefinition::description)
                .containsExactly("Porque parou", "An earlier one", "Anterior", "");
        assertThat(states(0).texts())
                .containsEntry(0L, "sem causa")
                .containsEntry(14L, "sem chama piloto")
                .containsEntry(6L, "gas pressure low");
    }

    @Test
    void withoutALanguageTextsAreShownAsTheyStand() {
        assertThat(points())
                .extracting(PointDefinition::description)
                .containsExactly("Why it stopped", "An earlier one", "", "");
        assertThat(told(Problem.Severity.NOTE)).noneMatch(note -> note.contains("text.pt"));
    }

    @Test
    void aFileWithoutTheChosenLanguageIsNoted() {
        site("causes: codes/causes.csv, ", "de");
        assertThat(told(Problem.Severity.NOTE))
                .filteredOn(note -> note.contains("has no column text.de, so that its texts are shown as they stand"))
                .extracting(note -> note.replaceFirst(":.*", ""))
                .containsExactlyInAnyOrder("codes/causes.csv", "points/hot-water.csv");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "PT # (was 'PT'); did you mean 'pt'?",
                "pt-BR # (was 'pt-BR'); did you mean 'pt'?",
                "por # (was 'por'); did you mean 'pt'?",
                "xq # (was 'xq')",
                "portuguese # (was 'portuguese')"
            })
    void aCodeThatIsNoLanguageIsTold(String code, String expected) {
        site("", code);
        assertThat(files.errors())
                .singleElement()
                .asString()
                .startsWith("site.yaml:13:11: language: must be a language's code of two letters,")
                .endsWith(expected);
        site("", "");
        files.write("points/hot-water.csv", POINTS.replace("text.pt", "text." + code));
        assertThat(files.errors())
                .singleElement()
                .asString()
                .startsWith("points/hot-water.csv:1:18: column 'text." + code + "': must be a language's code")
                .endsWith(expected);
    }

    @ParameterizedTest
    @CsvSource({"gsw", "nds", "en", "tr"})
    void languagesWithTwoLettersAndWithThreeOnlyAreThere(String code) {
        site("", code);
        assertThat(files.errors()).isEmpty();
    }
}
