package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.Site;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Several controllers behind one unit identifier. */
class AddressOffsetTest {
    private static final String POINTS = """
            name,table,address,format,role,read-group
            flue,input-register,1,uint16,measurement,
            energy,holding-register,5+9,uint32,counter,
            a,holding-register,20,uint16,setting,g
            b,holding-register,21,uint16,setting,g
            ,holding-register,30,reserved:3,,
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
    }

    private void second(String keys) {
        files.write(
                "site.yaml",
                SiteFiles.SITE
                        .replace("order: low-word-first", "max-registers: {default: 32, holding-register 20-21: 2}")
                        .replace(
                                "instance-base: 1000}\n",
                                "instance-base: 1000}\n  boiler-2: {line: annex, unit: 1, type: hot-water," + keys
                                        + " instance-base: 2000}\n"));
    }

    @Test
    void anOffsetMovesEveryAddressOfAControllerOnTheWire() {
        second(" address-offset: 100,");
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        Site site = loaded.site().orElseThrow();
        List<LinePlan> plans = LinePlan.all(site.lines(), site.points());
        assertThat(plans.get(0).blocks().stream()
                        .map(ReadBlock::requests)
                        .map(requests -> requests.stream()
                                .map(request -> request.first() + "/" + request.count())
                                .toList()))
                .containsExactlyInAnyOrder(
                        List.of("0/1"),
                        List.of("4/1", "8/1"),
                        List.of("19/2"),
                        List.of("100/1"),
                        List.of("104/1", "108/1"),
                        List.of("119/2"));
        assertThat(site.points().get(4).definition().addressText()).isEqualTo("input-register 1 (wire 100)");
    }

    @Test
    void whatATypeSaysOfAddressesMovesAlong() {
        second(" address-offset: 100,");
        Site site = files.load().site().orElseThrow();
        assertThat(site.controllers().get(1).type().rules().reserved()).hasToString("[holding-register wire 129..131]");
        assertThat(site.controllers()
                        .get(1)
                        .type()
                        .rules()
                        .limits()
                        .ranges()
                        .get(0)
                        .range())
                .hasToString("holding-register wire 119..120");
        assertThat(site.controllers().get(0).type().rules().reserved()).hasToString("[holding-register wire 29..31]");
    }

    @Test
    void rangesThatLeaveTheirTableAreCut() {
        second(" address-offset: 65505,");
        Site site = files.load().site().orElseThrow();
        assertThat(site.controllers().get(1).type().rules().reserved())
                .hasToString("[holding-register wire 65534..65535]");
    }

    @Test
    void withoutOneTwoControllersAtOneUnitAreRefused() {
        second("");
        assertThat(files.errors())
                .singleElement()
                .asString()
                .startsWith("site.yaml:10:33: controllers.boiler-2.unit: unit 1 of line annex is already boiler-1;")
                .endsWith("several controllers behind one unit differ in address-offset");
    }

    @Test
    void anOffsetThatMovesAPointPastTheEndIsRefused() {
        second(" address-offset: 65516,");
        assertThat(files.errors())
                .containsExactly("site.yaml:10:69: controllers.boiler-2.address-offset: moves b at holding-register 21"
                        + " (wire 20) past the end of its table (was 65516)");
    }

    @Test
    void anOffsetThatLeavesTwoPointsOnOneRegisterIsRefused() {
        second(" address-offset: 1,");
        assertThat(files.errors())
                .containsExactly("site.yaml:10:69: controllers.boiler-2.address-offset: must move a, now at"
                        + " holding-register 20 (wire 20), off b of boiler-1 at holding-register 21 (wire 20) (was 1)");
    }

    @Test
    void anOffsetIsAWholeNumber() {
        second(" address-offset: -1,");
        assertThat(files.errors())
                .anySatisfy(e -> assertThat(e)
                        .startsWith(
                                "site.yaml:10:69: controllers.boiler-2.address-offset: must be 0 to 65535 (was -1)"));
    }
}
