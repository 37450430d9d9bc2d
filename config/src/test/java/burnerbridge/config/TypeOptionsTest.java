package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.TypeOptions.Stated;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What {@code site.yaml} says of a type beside its list: identity, watchdog, readable and protected ranges. */
class TypeOptionsTest {
    private static final String SITE = """
            site: quillmere
            time-zone: Europe/Lisbon
            lines: {annex: {tcp: {host: 127.0.0.1}}}
            types:
              hot-water:
                points: points/hot-water.csv
                numbering: data-model
                identity: serial
                watchdog: 30 s
                readable: [holding-register 10-20]
                protected: [holding-register 65500-65536, coil 7]
            controllers:
              boiler-1: {line: annex, unit: 1, type: hot-water}
              boiler-2: {line: annex, unit: 1, type: hot-water, address-offset: 1000}
            mqtt: {brokers: ['tcp://127.0.0.1:1883'], root: plant}
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder).write("site.yaml", SITE).write("points/hot-water.csv", """
                name,table,address,format,role,read-group
                low,holding-register,9,uint16,status,both
                high,holding-register,21,uint16,status,both
                serial,holding-register,30,text:4,identity,
                """);
    }

    private ControllerType type(int controller) {
        return files.load().site().orElseThrow().controllers().get(controller).type();
    }

    @Test
    void theyAreKeptAndMoveWithTheAddressOffset() {
        assertThat(type(0).options().identity()).contains(new Name("serial"));
        assertThat(type(0).options().watchdog()).contains(Duration.ofSeconds(30));
        assertThat(type(0).rules().readable()).containsExactly(new AddressRange(RegisterTable.HOLDING_REGISTER, 9, 19));
        assertThat(type(1).rules().readable())
                .containsExactly(new AddressRange(RegisterTable.HOLDING_REGISTER, 1009, 1019));
        // What would lie past the end of its table is cut off.
        assertThat(type(1).options().guarded())
                .containsExactly(new Stated("coil 7", new AddressRange(RegisterTable.COIL, 1006, 1006)));
        assertThat(type(1).options().readable())
                .extracting(Stated::toString)
                .containsExactly("holding-register 10-20 (wire 1009..1019)");
    }

    @Test
    void aGroupMayReachOverWhatIsReadableAndOverNothingElse() {
        assertThat(files.errors()).isEmpty();
        files.write("site.yaml", SITE.replace("holding-register 10-20", "holding-register 10-19"));
        assertThat(files.errors())
                .singleElement()
                .asString()
                .contains("group both reaches over wire address 19, which is in no row that can be read");
    }
}
