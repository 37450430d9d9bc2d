package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.binding.BindingChoices;
import burnerbridge.config.point.PointOrigin;
import burnerbridge.config.problem.Problem;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Groups of controllers as a site has them; what is wrong with them is in the table of damaged sites. */
class GroupsTest {
    private static final String SITE = """
            site: quillmere
            time-zone: Europe/Lisbon
            lines: {annex: {tcp: {host: 127.0.0.1}}}
            types:
              hot-water: {points: points/hot-water.csv, numbering: data-model}
            controllers:
              boiler-1: {line: annex, unit: 1, type: hot-water, instance-base: 1000}
              boiler-2: {line: annex, unit: 2, type: hot-water, instance-base: 2000}
            groups:
              plant: [boiler-1, boiler-2]
              spare: [boiler-2]
            bacnet: {device-instance: 711001, bind: 127.0.0.1}
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder).write("site.yaml", SITE).write("points/hot-water.csv", """
                name,table,address,format,role,means
                fire,coil,1,bit,status,flame
                locked,coil,2,bit,status,lockout
                """);
    }

    private List<String> groupPoints() {
        return files.load().site().orElseThrow().points().stream()
                .filter(point -> point.controller().isGroup())
                .map(point -> point.id().toString())
                .toList();
    }

    @Test
    void aGroupHasTheCountsThatAllOfItTellAndTheOthersAreWarnedOf() {
        assertThat(groupPoints())
                .containsExactly("plant.firing", "plant.locked-out", "spare.firing", "spare.locked-out");
        assertThat(files.load().problems())
                .filteredOn(problem -> problem.message().startsWith("groups."))
                .extracting(Problem::toString)
                .containsExactly(
                        "site.yaml:10:11: groups.plant: available is not counted, since no row that is read says"
                                + " available under means in points/hot-water.csv, the list of boiler-1",
                        "site.yaml:11:11: groups.spare: available is not counted, since no row that is read says"
                                + " available under means in points/hot-water.csv, the list of boiler-2");
    }

    @Test
    void aCountThatSomeTellAndOthersDoNotIsASlipAndOneThatNoneTellsIsNot() {
        assertThat(files.load().problems())
                .filteredOn(problem -> problem.message().startsWith("groups."))
                .allMatch(problem -> problem.severity() == Problem.Severity.NOTE);
        files.write(
                "site.yaml",
                SITE.replace("controllers:", "  steam: {points: points/steam.csv, numbering: wire}\ncontrollers:")
                        .replace("unit: 2, type: hot-water", "unit: 2, type: steam"));
        files.write("points/steam.csv", "name,table,address,format,role,means\nfire,coil,1,bit,status,flame\n");
        assertThat(files.load().problems())
                .filteredOn(Problem::isWarning)
                .extracting(Problem::toString)
                .contains("site.yaml:11:21: groups.plant: locked-out is not counted, since no row that is read says"
                        + " lockout under means in points/steam.csv, the list of boiler-2");
    }

    @Test
    void itsPointsAreBoundLikeOthersAndStayWhereTheyAre() throws IOException {
        SiteFolder bound =
                files.load().bind(new BindingChoices(Map.of(), Set.of())).site();
        assertThat(bound.problems()).noneMatch(problem -> problem.message().contains("no binding"));
        String rows = Files.readString(folder.resolve("bindings.csv"));
        assertThat(rows).contains("plant,firing,analog-input,").contains("spare,locked-out,analog-input,");
        Site site = bound.site().orElseThrow();
        List<Integer> instances = site.points().stream()
                .filter(point -> point.controller().isGroup())
                .map(point -> site.bindings().instanceOf(point).orElseThrow())
                .toList();
        assertThat(instances).doesNotHaveDuplicates();
        SitePoint first = site.points().stream()
                .filter(point -> point.controller().isGroup())
                .findFirst()
                .orElseThrow();
        assertThat(bound.origin(first)).isEqualTo(new PointOrigin("site.yaml", 10, "", ""));
        bound.bind(new BindingChoices(Map.of(), Set.of()));
        assertThat(Files.readString(folder.resolve("bindings.csv"))).isEqualTo(rows);
    }
}
