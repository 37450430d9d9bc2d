package burnerbridge.daemon.box;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.box.PackedArchive.Packed;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/** What is in the archive that is installed, read from its bytes. */
class ArchiveIT {
    private static final ObjectMapper JSON = new ObjectMapper();

    @SuppressWarnings("NullAway.Init")
    private Map<String, Packed> files;

    @BeforeEach
    void read() throws Exception {
        files = PackedArchive.files();
    }

    @Test
    void everythingLiesInOneFolderOfTheVersionAndBelongsToRoot() throws Exception {
        List<TarArchiveEntry> entries = PackedArchive.entries();

        assertThat(entries).isNotEmpty().allSatisfy(entry -> {
            assertThat(entry.getName()).startsWith(PackedArchive.top() + "/").doesNotContain("..");
            assertThat(entry.isFile() || entry.isDirectory())
                    .as(entry.getName())
                    .isTrue();
            assertThat(entry.getLongUserId()).isZero();
            assertThat(entry.getLongGroupId()).isZero();
            assertThat(entry.getUserName()).isEqualTo("root");
            assertThat(entry.getGroupName()).isEqualTo("root");
        });
        assertThat(new LinkedHashSet<>(
                        entries.stream().map(TarArchiveEntry::getName).toList()))
                .as("nothing twice")
                .hasSameSizeAs(entries);
    }

    @Test
    void theSameSourceMakesTheSameBytesSoAllTimesAreThatOfTheVersion() throws Exception {
        assertThat(PackedArchive.entries().stream()
                        .map(entry -> entry.getLastModifiedTime().toMillis())
                        .distinct())
                .hasSize(1);
        byte[] gzip = Files.readAllBytes(PackedArchive.file());
        int time = ByteBuffer.wrap(gzip, 4, 4).order(ByteOrder.LITTLE_ENDIAN).getInt();
        assertThat(time).as("the time in the head of the archive").isZero();
        JsonNode bill = bill();
        assertThat(bill.has("serialNumber")).isFalse();
        assertThat(bill.path("metadata").has("timestamp")).isFalse();
    }

    @Test
    void onlyTheLauncherIsAProgramAndNobodyButRootMayWrite() throws Exception {
        assertThat(PackedArchive.entries()).allSatisfy(entry -> {
            int mode = entry.getMode() & 07777;
            boolean program = entry.isDirectory() || entry.getName().endsWith("/bin/burner-bridge");
            assertThat(Integer.toOctalString(mode)).as(entry.getName()).isEqualTo(program ? "755" : "644");
        });
    }

    @Test
    void whatThePagesNameIsInIt() {
        assertThat(files.keySet())
                .contains(
                        "bin/burner-bridge",
                        "service/burner-bridge.service",
                        "service/serial.conf",
                        "container/Dockerfile",
                        "container/assemble",
                        "container/Training.java",
                        "container/java-options",
                        "container/compose.yaml",
                        "container/burner-bridge-container.service",
                        "container/serial.conf",
                        "examples/quillmere/site.yaml",
                        "examples/quillmere/bindings.csv",
                        "bom.json",
                        "INSTALL.md",
                        "CHANGELOG.md",
                        "LICENSE");
        assertThat(text("LICENSE")).contains("GNU GENERAL PUBLIC LICENSE").contains("Version 3");
        assertThat(text("container/burner-bridge-container.service"))
                .contains("IMAGE=localhost/burner-bridge:" + PackedArchive.version() + "\n");
        assertThat(text("container/compose.yaml")).contains("image: burner-bridge:" + PackedArchive.version() + "\n");
        assertThat(text("INSTALL.md")).contains("Burner Bridge is not a safety device");
    }

    @Test
    void noTestAndNothingOfTheSimulatorIsInIt() {
        assertThat(files.keySet())
                .noneMatch(name -> name.matches(
                        "(?i).*(simulator|benchmark|-tests|junit|assertj|awaitility|archunit|artemis|netty|jacoco).*"));
    }

    /** The numbers of the machines are those of the ELF specification, {@code e_machine}, from memory. */
    @ParameterizedTest
    @CsvSource({
        "x86_64, 2, 62",
        "armv8_64, 2, 183",
        "armv7hf, 1, 40",
        "armv6hf, 1, 40",
        "armv5, 1, 40",
        "x86, 1, 3",
    })
    void theCodeForSerialPortsIsThatOfItsProcessor(String processor, int wordClass, int machine) {
        byte[] bytes = file("native/Linux/" + processor + "/libjSerialComm.so").bytes();
        ByteBuffer head = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);

        assertThat(new byte[] {bytes[0], bytes[1], bytes[2], bytes[3]}).containsExactly(0x7f, 'E', 'L', 'F');
        assertThat(bytes[4]).as("1: 32 bits, 2: 64 bits").isEqualTo((byte) wordClass);
        assertThat(bytes[5]).as("1: the low byte first").isEqualTo((byte) 1);
        assertThat(head.getShort(16)).as("3: a shared object").isEqualTo((short) 3);
        assertThat(head.getShort(18)).isEqualTo((short) machine);
    }

    @Test
    void theBillOfMaterialsHasTheJarsAndNothingElse() throws Exception {
        Set<String> jars = new TreeSet<>();
        for (String name : files.keySet()) {
            if (name.startsWith("lib/")) {
                jars.add(name.substring("lib/".length()));
            }
        }
        Set<String> billed = new TreeSet<>();
        for (JsonNode component : components()) {
            billed.add(component.path("name").asString() + "-"
                    + component.path("version").asString() + ".jar");
        }
        assertThat(billed).isEqualTo(jars);
    }

    @Test
    void eachOfThemHasItsLicenceAndAnAddressOfItsPackage() throws Exception {
        assertThat(components()).allSatisfy(component -> {
            String name = component.path("name").asString();
            assertThat(component.path("purl").asString()).as(name).startsWith("pkg:maven/");
            assertThat(component.path("licenses").size()).as(name).isPositive();
            assertThat(component.path("licenses"))
                    .as(name)
                    .allSatisfy(licence -> assertThat(licence.path("license")
                                            .path("id")
                                            .asString("")
                                    + licence.path("license").path("name").asString("")
                                    + licence.path("expression").asString(""))
                            .isNotBlank());
        });
    }

    @Test
    void nothingInItNamesAFolderOfTheMachineThatMadeIt() {
        String here = Path.of("..").toAbsolutePath().normalize().toString();
        String home = Objects.requireNonNull(System.getProperty("user.home"));
        assertThat(files.keySet())
                .filteredOn(name -> !name.startsWith("lib/") && !name.startsWith("native/"))
                .allSatisfy(name -> assertThat(text(name)).doesNotContain(here).doesNotContain(home + "/"));
    }

    /** What was built is the first of them: the program's own jar. */
    private List<JsonNode> components() throws Exception {
        JsonNode bill = bill();
        assertThat(bill.path("bomFormat").asString()).isEqualTo("CycloneDX");
        List<JsonNode> components = new ArrayList<>();
        components.add(bill.path("metadata").path("component"));
        bill.path("components").forEach(components::add);
        return components;
    }

    private JsonNode bill() {
        return JSON.readTree(text("bom.json"));
    }

    private String text(String name) {
        return new String(file(name).bytes(), StandardCharsets.UTF_8);
    }

    private Packed file(String name) {
        Packed packed = files.get(name);
        if (packed == null) {
            throw new AssertionError(name + " is not in the archive");
        }
        return packed;
    }
}
