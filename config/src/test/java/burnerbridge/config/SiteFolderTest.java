package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.binding.BindingChoices;
import burnerbridge.config.problem.Problem;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.AddressRange;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Site;
import burnerbridge.site.WordOrder;
import burnerbridge.site.unit.Unit;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SiteFolderTest {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder);
    }

    private Site site() {
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        return loaded.site().orElseThrow();
    }

    private PointDefinition point(String name) {
        return site().controllers().get(0).type().points().stream()
                .filter(p -> p.name().equals(new Name(name)))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theSiteIsWhatTheFilesSay() {
        Site site = site();
        assertThat(site.name()).isEqualTo(new Name("quillmere"));
        assertThat(site.zone().getId()).isEqualTo("Europe/Lisbon");
        assertThat(site.lines())
                .containsExactly(new LineDefinition(
                        new Name("annex"),
                        new LineDefinition.Tcp("127.0.0.1", 1502),
                        Duration.ofMillis(500),
                        Duration.ofSeconds(3)));
        assertThat(site.bacnet())
                .contains(new BacnetSettings(711001, "burner-bridge-711001", "127.0.0.1", 47808, Optional.empty(), 0));
        assertThat(site.mqtt().orElseThrow().root()).isEqualTo("plant");
        assertThat(site.points()).hasSize(6);
    }

    @Test
    void aRowIsReadWithItsDefaults() {
        PointDefinition water = point("water-temperature");
        assertThat(water.table()).isEqualTo(RegisterTable.INPUT_REGISTER);
        assertThat(water.wireAddress()).isZero();
        assertThat(water.addressText()).isEqualTo("input-register 1 (wire 0)");
        assertThat(water.unit()).isEqualTo(Unit.of("°C"));
        assertThat(water.every()).isEqualTo(Duration.ofSeconds(2));
        assertThat(water.staleAfter()).isEqualTo(Duration.ofSeconds(10));
        assertThat(water.change()).isEqualTo(new BigDecimal("0.1"));
        assertThat(water.object()).isEqualTo(ObjectKind.ANALOG_INPUT);
        assertThat(point("starts").every()).isEqualTo(Duration.ofMinutes(1));
        assertThat(point("starts").staleAfter()).isEqualTo(Duration.ofMinutes(3));
    }

    @Test
    void aRowIsReadAsWritten() {
        PointDefinition oxygen = point("oxygen");
        assertThat(oxygen.description()).isEqualTo("Oxygen, wet");
        assertThat(oxygen.format()).isEqualTo(new PointFormat.Floating(32, WordOrder.HIGH_WORD_FIRST));
        assertThat(oxygen.staleAfter()).isEqualTo(Duration.ofSeconds(20));
        assertThat(point("phase").wireAddress()).isEqualTo(9);
        assertThat(point("phase").object()).isEqualTo(ObjectKind.MULTI_STATE_INPUT);
        assertThat(point("flame").wireAddress()).isEqualTo(6);
        assertThat(point("flame").states().text(1)).contains("on");
        assertThat(point("alarm").format()).isEqualTo(new PointFormat.RegisterBit(3, 3));
        assertThat(point("alarm").object()).isEqualTo(ObjectKind.NONE);
    }

    @Test
    void theTypesOrderAndFirstBitHoldWhereARowSaysNothing() {
        files.write("points/hot-water.csv", SiteFiles.POINTS.replace("float32,high-word-first", "float32,"));
        files.spoil("site.yaml", "order: low-word-first", "order: low-word-first+swap-bytes, first-bit: 1");
        assertThat(point("oxygen").format()).isEqualTo(new PointFormat.Floating(32, new WordOrder(true, true)));
        assertThat(point("alarm").format()).isEqualTo(new PointFormat.RegisterBit(2, 3));
    }

    @Test
    void everyFormatOfTheListIsRead() {
        files.write("points/hot-water.csv", """
                name,table,address,format,role,order,no-value,valid,raw-low,raw-high,low,high,states,object
                a,holding-register,1,uint32,status,,0xFFFFFFFF|-1,0..99,,,,,,analog-input
                b,holding-register,3,int64,status,high-word-first+swap-bytes,,,,,,,,
                c,holding-register,7,float64,status,,,,,,,,,
                d,holding-register,11,int8-low,status,,,,,,,,,
                e,holding-register,12,sign-magnitude16,status,,,,0,27648,0,16,,
                f,holding-register,13,bcd32,status,,,,,,,,,
                g,holding-register,15,decimal-words:3,status,,,,,,,,,
                h,holding-register,18,bits:4-7,status,,,,,,,,0=gas|1=oil,
                i,holding-register,19,text:8,identity,high-word-first,,,,,,,,
                j,holding-register,27,datetime:y-md-hn-sx+bcd,clock,,,,,,,,,
                k,holding-register,31,epoch32,clock,,,,,,,,,
                """);
        Site site = site();
        assertThat(site.points().stream().map(p -> p.definition().format().word()))
                .containsExactly(
                        "uint32",
                        "int64",
                        "float64",
                        "int8-low",
                        "sign-magnitude16",
                        "bcd32",
                        "decimal-words:3",
                        "bits:4-7",
                        "text:8",
                        "datetime:y-md-hn-sx+bcd",
                        "epoch32");
        assertThat(site.points().stream().map(p -> p.definition().format().width()))
                .containsExactly(2, 4, 4, 1, 1, 2, 3, 1, 8, 4, 2);
        assertThat(point("a").limits().noValue())
                .containsExactlyInAnyOrder(new BigDecimal(4294967295L), new BigDecimal(-1));
        assertThat(point("a").change()).isEqualByComparingTo("1");
        assertThat(point("e").scaling().decimals()).isEqualTo(4);
        assertThat(point("k").format())
                .isEqualTo(new PointFormat.Epoch32(new WordOrder(true, false), ZoneId.of("Europe/Lisbon")));
        // Each exact to the last digit, unless somebody asks for the rounded number.
        assertThat(point("b").object()).isEqualTo(ObjectKind.CHARACTERSTRING_VALUE);
        assertThat(point("c").object()).isEqualTo(ObjectKind.LARGE_ANALOG_VALUE);
        assertThat(point("d").object()).isEqualTo(ObjectKind.ANALOG_INPUT);
        assertThat(point("f").object()).isEqualTo(ObjectKind.POSITIVE_INTEGER_VALUE);
        assertThat(point("g").object()).isEqualTo(ObjectKind.LARGE_ANALOG_VALUE);
        assertThat(point("i").object()).isEqualTo(ObjectKind.CHARACTERSTRING_VALUE);
        assertThat(point("j").object()).isEqualTo(ObjectKind.DATETIME_VALUE);
        assertThat(point("h").object()).isEqualTo(ObjectKind.MULTI_STATE_INPUT);
        assertThat(files.load().problems())
                .anyMatch(p -> !p.isError() && p.message().contains("exact for whole numbers up to 16777216 only"));
    }

    @Test
    void wordsThatAreApartAndReadingsThatMustAgree() {
        files.write("points/hot-water.csv", """
                name,table,address,format,role,order,verify
                starts,holding-register,120+187,uint32,counter,,
                hours,holding-register,130,uint32,counter,,twice
                """);
        assertThat(point("starts").addressText()).isEqualTo("holding-register 120+187 (wire 119+186)");
        assertThat(point("starts").consistency()).isEqualTo(new Consistency(false, OptionalInt.of(186)));
        // The type says low word first; the address says otherwise.
        assertThat(point("starts").format()).isEqualTo(new PointFormat.Whole(32, false, WordOrder.HIGH_WORD_FIRST));
        assertThat(point("hours").consistency()).isEqualTo(new Consistency(true, OptionalInt.empty()));
    }

    @Test
    void pointsThatBelongTogetherAreReadInOneTransaction() {
        files.write("points/hot-water.csv", """
                name,table,address,format,role,read-group,scale-by,every
                number,holding-register,200,uint16,fault-record,record,,
                cause,holding-register,201,uint16,fault-record,record,,10 s
                time,holding-register,202,epoch32,fault-record,record,,
                pressure,holding-register,300,uint16,measurement,,decimals,
                spare,holding-register,301,uint16,setting,,,
                decimals,holding-register,302,uint16,setting,,,
                """);
        Site site = site();
        List<ReadBlock> blocks =
                LinePlan.all(site.lines(), site.points()).get(0).blocks();
        assertThat(blocks).hasSize(2);
        assertThat(blocks.get(0).requests().toString()).contains("wire 199..202");
        assertThat(blocks.get(0).every()).isEqualTo(Duration.ofSeconds(10));
        assertThat(blocks.get(0).points()).hasSize(3);
        assertThat(blocks.get(1).requests().toString()).contains("wire 299..301");
        assertThat(blocks.get(1).every()).isEqualTo(Duration.ofSeconds(2));
        // What lies between two points of a group rides with them.
        assertThat(blocks.get(1).points()).hasSize(3);
        assertThat(point("pressure").change()).isEqualByComparingTo("0");
    }

    @Test
    void whatATypeAsksOfAReaderIsKeptInWireAddresses() {
        files.write(
                "site.yaml",
                SiteFiles.SITE
                        .replace(
                                "numbering: data-model, order: low-word-first",
                                "numbering: prefixed, tables: mirror,"
                                        + " pause: 20 ms, max-registers: {default: 32, holding-register 40901-41000: 8,"
                                        + " input-register 300011: 100}")
                        .replace("unit: 1,", "unit: 1, reply-unit: any,"));
        files.write("points/hot-water.csv", """
                name,table,address,format,role
                a,holding-register,40001,uint16,status
                ,input-register,30005,reserved:3,
                factory data,coil,00001,reserved,setting
                """);
        ControllerDefinition boiler = site().controllers().get(0);
        assertThat(boiler.anyReplyUnit()).isTrue();
        assertThat(boiler.type().rules())
                .isEqualTo(new ReadRules(
                        true,
                        new ReadLimits(
                                32,
                                List.of(
                                        new ReadLimits.InRange(
                                                new AddressRange(RegisterTable.HOLDING_REGISTER, 900, 999), 8),
                                        new ReadLimits.InRange(
                                                new AddressRange(RegisterTable.INPUT_REGISTER, 10, 10), 100))),
                        Duration.ofMillis(20),
                        List.of(
                                new AddressRange(RegisterTable.INPUT_REGISTER, 4, 6),
                                new AddressRange(RegisterTable.COIL, 0, 0))));
        assertThat(site().points()).hasSize(1);
    }

    @Test
    void aTypeThatSaysNothingAsksForNothing() {
        assertThat(site().controllers().get(0).type().rules()).isEqualTo(ReadRules.NONE);
        assertThat(site().controllers().get(0).anyReplyUnit()).isFalse();
    }

    @Test
    void tablesThatAreOneMakeOneGroup() {
        files.spoil("site.yaml", "order: low-word-first", "tables: mirror");
        files.write("points/hot-water.csv", """
                name,table,address,format,role,read-group
                a,holding-register,1,uint16,status,g
                b,input-register,3,uint16,status,g
                c,input-register,2,uint16,status,
                """);
        Site site = site();
        List<ReadBlock> blocks =
                LinePlan.all(site.lines(), site.points()).get(0).blocks();
        assertThat(blocks)
                .singleElement()
                .satisfies(block -> assertThat(block.requests().toString()).contains("holding-register wire 0..2"));
        assertThat(point("b").table()).isEqualTo(RegisterTable.INPUT_REGISTER);
    }

    @Test
    void whatAReadClearsIsNotReadUnlessSomebodyAsksForIt() {
        files.write("points/hot-water.csv", """
                name,table,address,format,role,on-read,every
                latch,holding-register,9,bit:0,status,clears,
                latch-2,holding-register,9,bit:1,status,clears,5 s
                """);
        assertThat(site().points()).noneMatch(p -> p.definition().isPolled());
        assertThat(point("latch").object()).isEqualTo(ObjectKind.NONE);
        assertThat(files.load().problems())
                .anyMatch(p -> p.severity() == Problem.Severity.NOTE
                        && p.toString()
                                .equals("points/hot-water.csv:2:39: on-read: latch is not read, since that clears it;"
                                        + " types.hot-water.read-clearing: [latch] asks for it"));

        files.spoil("site.yaml", "order: low-word-first", "read-clearing: [latch, latch-2]");
        Site site = site();
        assertThat(point("latch").object()).isEqualTo(ObjectKind.BINARY_INPUT);
        // Both in one read: a second one would find the register cleared.
        assertThat(LinePlan.all(site.lines(), site.points()).get(0).blocks())
                .singleElement()
                .satisfies(block -> {
                    assertThat(block.isOnce()).isTrue();
                    assertThat(block.every()).isEqualTo(Duration.ofSeconds(2));
                    assertThat(block.points()).hasSize(2);
                });
    }

    @Test
    void semicolonsAndAByteOrderMarkComeFromSpreadsheets() {
        String semicolons =
                SiteFiles.POINTS.replace("\"Oxygen, wet\"", "Oxygen").replace(',', ';');
        files.write("points/hot-water.csv", '\uFEFF' + semicolons);
        assertThat(point("oxygen").description()).isEqualTo("Oxygen");
    }

    @Test
    void pointsWithoutBindingAreAFindingAndStayOff() {
        assertThat(files.load().problems())
                .singleElement()
                .satisfies(p -> assertThat(p.toString())
                        .contains("5 points have no binding")
                        .contains("check --bind"));
        assertThat(site().bindings().entries()).isEmpty();
    }

    @Test
    void bindingGivesEveryPointAnInstanceForGood() throws IOException {
        SiteFolder bound = files.load().bind(BindingChoices.NONE).site();
        assertThat(bound.problems()).isEmpty();
        assertThat(Files.readAllLines(folder.resolve("bindings.csv")))
                .containsExactly(
                        "type,point,object,offset,states,at,was,gone",
                        "hot-water,water-temperature,analog-input,1,,input-register wire 0 int16,,",
                        "hot-water,oxygen,analog-input,2,,input-register wire 1 float32,,",
                        "hot-water,phase,multi-state-input,3,0=1|1=2,holding-register wire 9 uint16,,",
                        "hot-water,flame,binary-input,4,,discrete-input wire 6 bit,,",
                        "hot-water,starts,analog-input,5,,holding-register wire 11 uint16,,");
        assertThat(site().points().stream()
                        .map(p -> site().bindings().instanceOf(p))
                        .filter(i -> i.isPresent())
                        .map(i -> i.getAsInt()))
                .containsExactly(1001, 1002, 1003, 1004, 1005);
    }

    @Test
    void addingAndDroppingRowsMovesNoOtherPoint() throws IOException {
        files.load().bind(BindingChoices.NONE);
        String without = SiteFiles.POINTS.replaceAll("(?m)^oxygen.*\n", "");
        String with =
                without.replace("phase,", "draught,Draught,input-register,5,int16,,,,Pa,measurement,,,,,,,\nphase,");
        files.write("points/hot-water.csv", with);
        SiteFolder changed = files.load();
        assertThat(changed.problems())
                .anyMatch(p -> p.message().contains("hot-water.oxygen is in no point list; its offset 2 stays taken"));
        changed.bind(BindingChoices.NONE);
        List<String> lines = Files.readAllLines(folder.resolve("bindings.csv"));
        assertThat(lines)
                .contains(
                        "hot-water,oxygen,analog-input,2,,input-register wire 1 float32,,yes",
                        "hot-water,starts,analog-input,5,,holding-register wire 11 uint16,,");
        assertThat(lines.get(lines.size() - 1))
                .isEqualTo("hot-water,draught,analog-input,6,,input-register wire 4 int16,,");
    }

    @Test
    void bindingTwiceChangesNothing() throws IOException {
        files.load().bind(BindingChoices.NONE);
        String once = Files.readString(folder.resolve("bindings.csv"));
        files.load().bind(BindingChoices.NONE);
        assertThat(Files.readString(folder.resolve("bindings.csv"))).isEqualTo(once);
        try (var all = Files.list(folder)) {
            assertThat(all.map(p -> p.getFileName().toString()))
                    .containsExactlyInAnyOrder("site.yaml", "points", "bindings.csv");
        }
    }

    @Test
    void bindingKeepsThePermissionsOfTheFile() throws IOException {
        files.load().bind(BindingChoices.NONE);
        Path file = folder.resolve("bindings.csv");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                .startsWith("rw-r");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-rw-r--"));
        files.write(
                "points/hot-water.csv", SiteFiles.POINTS + "hours,,holding-register,20,uint16,,,,,counter,,,,,,,\n");
        files.load().bind(BindingChoices.NONE);
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                .isEqualTo("rw-rw-r--");
        assertThat(Files.readString(file))
                .endsWith("hot-water,hours,analog-input,6,,holding-register wire 19 uint16,,\n");
    }

    @Test
    void whatIsMissingFromAListWithErrorsIsNotSaidToBeGone() throws IOException {
        files.load().bind(BindingChoices.NONE);
        files.spoil("points/hot-water.csv", "uint16,,,,,counter", "uint17,,,,,counter");
        assertThat(files.load().problems()).singleElement().matches(Problem::isError);
    }

    @Test
    void aFolderWithoutASiteFileSaysSo() throws IOException {
        Files.delete(folder.resolve("site.yaml"));
        assertThat(files.errors()).singleElement().asString().startsWith("site.yaml: is missing in ");
    }

    @Test
    void everyProblemOfEveryFileIsToldAtOnce() {
        files.spoil("site.yaml", "unit: 1", "unit: 300");
        files.write(
                "points/hot-water.csv",
                SiteFiles.POINTS.replace("int16,,0.1", "int17,,0.1").replace(",status,,,0=st", ",statis,,,0=st"));
        assertThat(files.errors()).hasSize(3);
        assertThat(files.load().site()).isEmpty();
    }
}
