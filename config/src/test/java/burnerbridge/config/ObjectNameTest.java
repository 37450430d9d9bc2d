package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import burnerbridge.site.ObjectNames;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Names of BACnet objects, and points that cannot be read. */
class ObjectNameTest {
    private static final String HEADER =
            "name,table,address,format,role,every,read-group,object,object-name,access,when\n";
    private static final String TWO_BOILERS = SiteFiles.SITE.replace(
            "instance-base: 1000}\n",
            "instance-base: 1000}\n  boiler-2: {line: annex, unit: 2, type: hot-water, instance-base: 2000}\n");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder);
    }

    private void rows(String... rows) {
        files.write("points/hot-water.csv", HEADER + String.join("\n", rows) + "\n");
    }

    private List<SitePoint> points() {
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        return loaded.site().map(Site::points).orElseThrow();
    }

    @Test
    void anObjectIsNamedByItsRowElseByControllerAndPoint() {
        files.write("site.yaml", TWO_BOILERS);
        rows(
                "flue,input-register,1,uint16,measurement,,,,{controller} – Flue °C,,",
                "oxygen,input-register,2,uint16,measurement,,,,,,");
        assertThat(points())
                .extracting(ObjectNames.USUAL::of)
                .containsExactly("boiler-1 – Flue °C", "boiler-1.oxygen", "boiler-2 – Flue °C", "boiler-2.oxygen");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "Flue # object-name: would name both boiler-1.flue and boiler-2.flue 'Flue'; {controller} in it stands",
                "{controller}.oxygen # object-name: would name both boiler-1.flue and boiler-1.oxygen 'boiler-1.oxygen'",
                "burner-bridge-711001 # object-name: would name both the device itself and boiler-1.flue",
                "{boiler} flue # object-name: braces are for {controller}, which stands for the controller's name (was '{boiler} flue')",
                "1234567890123456789012345678901234567890123456789012345678901234x # object-name: must be at most 64"
            })
    void aNameThatCannotBeIsToldOnceAtItsCell(String name, String expected) {
        files.write("site.yaml", TWO_BOILERS);
        rows(
                "flue,input-register,1,uint16,measurement,,,," + name + ",,",
                "oxygen,input-register,2,uint16,measurement,,,,,,");
        assertThat(files.errors()).singleElement().asString().startsWith("points/hot-water.csv:2:45: " + expected);
    }

    @Test
    void aPointWithoutAnObjectHasNoNameOfOne() {
        rows("flue,input-register,1,uint16,measurement,,,none,Flue,,");
        assertThat(files.errors())
                .containsExactly("points/hot-water.csv:2:49: object-name: a point that has no object has no name of one"
                        + " (was 'Flue')");
    }

    @Test
    void namesMatterOnlyWhereThereIsADevice() {
        files.write("site.yaml", TWO_BOILERS.replaceAll("bacnet:.*\n", ""));
        rows("flue,input-register,1,uint16,measurement,,,,Flue,,");
        assertThat(files.errors()).isEmpty();
    }

    @Test
    void aPointThatIsOnlyWrittenIsNeverReadAndHasNoObject() {
        rows(
                "demand,holding-register,1,uint16,demand,,,,,write,",
                "enable,holding-register,2,uint16,enable,,,,,read,",
                "flue,input-register,1,uint16,measurement,,,,,,");
        assertThat(points()).extracting(p -> p.definition().isPolled()).containsExactly(false, true, true);
        assertThat(points()).extracting(p -> p.definition().wantsObject()).containsExactly(false, true, true);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "measurement,,,,,write, # 2:45: access: a point of role measurement is read, never written",
                "demand,,,,,writ, # 2:40: access: must be one of read, write (was 'writ'); did you mean 'write'?",
                "demand,5 s,,,,write, # 2:36: every: says nothing of a point that cannot be read",
                "demand,,g,,,write, # 2:37: read-group: says nothing of a point that cannot be read",
                "demand,,,analog-input,,write, # 2:38: object: a point that is not read can only be none"
            })
    void whatDoesNotGoWithWritingIsTold(String cells, String expected) {
        rows("a,holding-register,1,uint16," + cells);
        assertThat(files.errors()).anySatisfy(e -> assertThat(e).startsWith("points/hot-water.csv:" + expected));
    }

    @Test
    void nothingHangsOnWhatCannotBeRead() {
        rows("a,coil,1,bit,enable,,,,,write,", "b,input-register,1,uint16,measurement,,,,,,a=1");
        assertThat(files.errors())
                .singleElement()
                .asString()
                .endsWith("when: a is not read, so that nobody would know its state");
    }

    @Test
    void noGroupReadsAcrossWhatIsOnlyWritten() {
        rows(
                "a,holding-register,1,uint16,setting,,g,,,,",
                "b,holding-register,2,uint16,setting,,,,,write,",
                "c,holding-register,3,uint16,setting,,g,,,,");
        assertThat(files.errors())
                .singleElement()
                .asString()
                .contains("read-group: group g reaches over wire address 1, which is in no row that can be read");
    }
}
