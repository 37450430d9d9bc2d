package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.binding.BindingChoices;
import burnerbridge.config.problem.Problem;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.QuillmereWithPermits;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The objects by which permitted points are asked for have instances for good, as points do, and move none of theirs. */
class PermitBindingsTest {
    private static final String STEAM = """
              - point: steam-1.load-limit
                from: {bacnet: [127.0.0.1]}
                range: 25.5..100
                interval: 60 s
                storage: volatile
                function: 6
                silence-after: 10 min
                on-silence: write 25.5
                reason: steam that the glasshouses can take
            """;
    private static final String BOILER = """
              - point: boiler-1.remote-enable
                from: {bacnet: [127.0.0.1]}
                states: [held, released]
                interval: 30 s
                storage: volatile
                function: 5
                silence-after: 15 min
                on-silence: write held
                reason: the plant above decides which boilers run
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @BeforeEach
    void writeSite() throws IOException {
        QuillmereWithPermits.writeTo(folder, "write-permits:\n" + STEAM);
        Path bindings = folder.resolve("bindings.csv");
        List<String> points = Files.readAllLines(bindings).stream()
                .filter(line -> !line.contains("-request,") && !line.contains("-lease,"))
                .toList();
        Files.write(bindings, points);
    }

    private List<String> rows() throws IOException {
        return Files.readAllLines(folder.resolve("bindings.csv"));
    }

    private void permit(String... permits) throws IOException {
        Path yaml = folder.resolve("site.yaml");
        String text = Files.readString(yaml);
        String before = text.substring(0, text.indexOf("\nwrite-permits:") + 1);
        Files.writeString(
                yaml,
                before + (permits.length == 0 ? "write-permits: []\n" : "write-permits:\n" + String.join("", permits)));
    }

    private List<String> bind() throws IOException {
        SiteFolder loaded = SiteFolder.load(folder);
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        return loaded.bind(BindingChoices.NONE).done();
    }

    private Optional<Integer> offset(String type, String point) {
        return SiteFolder.load(folder)
                .site()
                .orElseThrow()
                .bindings()
                .of(new Name(type), new Name(point))
                .map(binding -> binding.offset());
    }

    @Test
    void aPermitThatIsNotBoundIsToldAndBindingItChangesNoOtherRow() throws IOException {
        assertThat(SiteFolder.load(folder).problems())
                .extracting(Problem::toString)
                .anyMatch(text -> text.contains("2 objects of write permits have no binding and stay off BACnet, the"
                        + " first of them steam.load-limit-request"));
        List<String> before = rows();
        assertThat(bind())
                .containsExactly(
                        "steam.load-limit-request has analog-value offset 112",
                        "steam.load-limit-lease has analog-value offset 113");
        List<String> expected = new ArrayList<>(before);
        expected.add("steam,load-limit-request,analog-value,112,,holding-register wire 1280 uint16,,");
        expected.add("steam,load-limit-lease,analog-value,113,,holding-register wire 1280 uint16,,");
        assertThat(rows()).containsExactlyElementsOf(expected);
        assertThat(SiteFolder.load(folder).problems())
                .noneMatch(problem -> problem.toString().contains("bindings.csv"));
    }

    @Test
    void aPermitThatComesGoesAndComesBackKeepsItsInstancesAndMovesNoOthers() throws IOException {
        bind();
        permit(BOILER, STEAM);
        assertThat(bind())
                .containsExactly(
                        "hot-water.remote-enable-request has binary-value offset 114",
                        "hot-water.remote-enable-lease has analog-value offset 115");
        List<String> both = rows();
        assertThat(offset("steam", "load-limit-request")).contains(112);
        permit(BOILER);
        assertThat(SiteFolder.load(folder).problems())
                .extracting(Problem::toString)
                .anyMatch(
                        text -> text.contains("steam.load-limit-request is of no point and no write permit any more"));
        assertThat(bind()).hasSize(2);
        assertThat(offset("steam", "load-limit-request")).isEmpty();
        assertThat(offset("hot-water", "remote-enable-request")).contains(114);
        permit();
        bind();
        permit(STEAM, BOILER);
        bind();
        assertThat(rows()).containsExactlyElementsOf(both);
    }

    @Test
    void theKindIsThatOfTheValue() throws IOException {
        permit(BOILER, STEAM);
        bind();
        assertThat(SiteFolder.load(folder)
                        .site()
                        .orElseThrow()
                        .bindings()
                        .of(new Name("hot-water"), new Name("remote-enable-request")))
                .hasValueSatisfying(binding -> assertThat(binding.object()).isEqualTo(ObjectKind.BINARY_VALUE));
    }

    @Test
    void anObjectNameThatAPermitNeedsIsAnErrorOfTheRowThatHasIt() throws IOException {
        Path yaml = folder.resolve("site.yaml");
        Files.writeString(
                yaml,
                Files.readString(yaml)
                        .replaceFirst("device-instance: \\d+", "$0\n  device-name: steam-1.load-limit-request"));
        assertThat(SiteFolder.load(folder).problems())
                .filteredOn(Problem::isError)
                .extracting(Problem::toString)
                .singleElement()
                .asString()
                .contains("points/steam.csv")
                .contains("the device itself has the name 'steam-1.load-limit-request', which the request object of"
                        + " steam-1.load-limit needs for its write permit");
    }

    @Test
    void aRowThatHasTheNameOfARequestIsToldAndItsBindingIsItsOwn() throws IOException {
        Path list = folder.resolve("points/steam.csv");
        String row = Files.readAllLines(list).stream()
                .filter(line -> line.startsWith("load-limit,"))
                .findFirst()
                .orElseThrow();
        String second = row.replaceFirst("load-limit,", "load-limit-request,")
                .replace("0x0500", "0x0570")
                .replace("demand", "status");
        Files.writeString(list, Files.readString(list).replace(row, row + "\n" + second));
        assertThat(SiteFolder.load(folder).problems())
                .filteredOn(Problem::isError)
                .extracting(Problem::toString)
                .singleElement()
                .asString()
                .contains("points/steam.csv")
                .contains("steam-1.load-limit-request has the name 'steam-1.load-limit-request', which the request"
                        + " object of steam-1.load-limit needs for its write permit");
        permit();
        assertThat(bind()).containsExactly("steam.load-limit-request has analog-input offset 112");
    }
}
