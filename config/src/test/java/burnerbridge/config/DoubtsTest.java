package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What could be right and is probably a slip: told, with its place, and no hindrance. */
class DoubtsTest {
    private static final String HEADER =
            "name,table,address,format,order,role,scale,offset,unit,show-unit,basis,states,every,object\n";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    /** The doubts about a list of rows, without those about bindings. */
    private List<String> doubts(String rows) {
        return doubts(new SiteFiles(folder).write("points/hot-water.csv", HEADER + rows));
    }

    private static List<String> doubts(SiteFiles files) {
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        assertThat(loaded.site()).isPresent();
        return loaded.problems().stream()
                .filter(problem -> !problem.file().equals("bindings.csv"))
                .map(problem -> problem.word() + " " + problem)
                .toList();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "a second word # uint32,,status # 6,uint16,,status # 3:20: address: b (uint16, holding-register 6 (wire 5)) takes some of the registers of a (uint32, holding-register 5 (wire 4)) of line 2",
                "an overlap by one # uint32,,status # 4,uint32,,status # 3:20: address: b (uint32, holding-register 4 (wire 3)) takes some",
                "another kind # float32,,status # 5,uint32,,status # 3:22: format: b (uint32, holding-register 5 (wire 4)) reads the very registers of a of line 2 as uint32, that one as float32: only one of the two can be right",
                "another order # uint32,,status # 5,uint32,high-word-first,status # 3:29: order: b (uint32, holding-register 5 (wire 4)) reads the very registers of a of line 2 in another order",
                "a sign # uint16,,status # 5,int16,,status # 3:22: format: b (int16, holding-register 5 (wire 4)) reads the very registers of a of line 2 as int16, that one as uint16",
                "a scale # uint16,,status,0.1 # 5,uint16,,status,1 # 3:37: scale: b (uint16, holding-register 5 (wire 4)) reads what a of line 2 reads, as the same format, with another scale: '1' here, '0.1' there",
                "a unit # uint16,,status,,,°C # 5,uint16,,status,,,K,,difference # 3:39: unit: b (uint16",
                "states # uint16,,status,,,,,,0=off|1=on # 5,uint16,,status,,,,,,0=on|1=off # 3:42: states: b (uint16",
                "a field # bits:0-3,,status # 5,bits:2-5,,status # 3:22: format: b (bits:2-5, holding-register 5 (wire 4)) takes some of the bits of a (bits:0-3, holding-register 5 (wire 4)) of line 2 and leaves others",
                "bit of a float # float32,,status # 6,bit:3,,status # 3:22: format: b (bit:3, holding-register 6 (wire 5)) and a (float32, holding-register 5 (wire 4)) of line 2 read the same register, and a floating-point number has no bits"
            })
    void rowsOfTheSameRegistersThatCannotBothBeRightAreToldWithBothLines(
            String what, String first, String second, String expected) {
        List<String> doubts = doubts("a,holding-register,5," + first + "\nb,holding-register," + second + "\n");
        assertThat(doubts).as(what).singleElement().asString().startsWith("warning points/hot-water.csv:" + expected);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "a bit beside its whole # uint16,,status # 5,bit:3,,status",
                "a bit of a wide number # uint32,,status # 6,bit:3,,status",
                "two bits # bit:2,,status # 5,bit:3,,status",
                "a bit of a field # bits:0-7,,status # 5,bit:3,,status",
                "both halves # uint8-high,,status # 5,uint8-low,,status",
                "a value in two units # uint16,,status,0.1,,°C # 5,uint16,,status,0.10,,°C,°F",
                "a number and its states # uint16,,status # 5,uint16,,status,,,,,,0=off|1=on",
                "a date and its year # datetime:y-m-d,,clock # 5,uint16,,status",
                "a time and its seconds # epoch32,,clock # 5,uint32,,counter",
                "digits and their words # decimal-words:2,,counter # 6,uint16,,counter",
                "neighbours # uint32,,status # 7,uint16,,status"
            })
    void severalPointsMayReadOneRegister(String what, String first, String second) {
        assertThat(doubts("a,holding-register,5," + first + "\nb,holding-register," + second + "\n"))
                .as(what)
                .isEmpty();
    }

    @Test
    void anInputRegisterIsNoHoldingRegisterUnlessTheTypeSaysSo() {
        String rows = "a,holding-register,5,uint16,,status\nb,input-register,5,int16,,status\n";
        assertThat(doubts(rows)).isEmpty();
        SiteFiles mirrored = new SiteFiles(folder)
                .spoil("site.yaml", "order: low-word-first", "tables: mirror")
                .write("points/hot-water.csv", HEADER + rows);
        assertThat(doubts(mirrored)).singleElement().asString().contains("reads the very registers of a of line 2");
    }

    @Test
    void aRowIsToldOnceHoweverManyItDisagreesWith() {
        assertThat(doubts("a,coil,5,bit,,status,,,,,,0=off|1=on\nb,coil,5,bit,,status,,,,,,0=on|1=off\n"
                        + "c,coil,5,bit,,status,,,,,,0=no|1=yes\n"))
                .hasSize(2)
                .allMatch(doubt -> doubt.contains("of line 2"));
    }

    @ParameterizedTest
    @CsvSource({"flue-temp, fluetemp", "zone-1, zone-l", "zone-i, zone-1", "valve-o, valve-0", "burner-on, bumer-on"})
    void namesThatLookAlikeAreTold(String one, String other) {
        assertThat(doubts(one + ",coil,1,bit,,status\n" + other + ",coil,2,bit,,status\n"))
                .containsExactly("warning points/hot-water.csv:3:1: " + other + ": is easily taken for " + one
                        + " of line 2; is one of them a slip of the pen?");
    }

    @ParameterizedTest
    @CsvSource({"zone-1-11, zone-11-1", "flame, flames", "stage-1, stage-2"})
    void namesThatTellThingsApartAreNot(String one, String other) {
        assertThat(doubts(one + ",coil,1,bit,,status\n" + other + ",coil,2,bit,,status\n"))
                .isEmpty();
    }

    @Test
    void controllersThatLookAlikeAreTold() {
        SiteFiles files = new SiteFiles(folder)
                .spoil(
                        "site.yaml",
                        "bacnet:",
                        "  boiler1: {line: annex, unit: 2, type: hot-water, instance-base: 2000}\nbacnet:");
        assertThat(doubts(files))
                .containsExactly("warning site.yaml:10:12: controllers.boiler1: is easily taken for"
                        + " controllers.boiler-1 of line 9; is one of them a slip of the pen?");
    }

    @ParameterizedTest
    @CsvSource({"data-model, 40001 (wire 40000)", "wire, 40001 (wire 40001)"})
    void aListInPrefixedNumberingIsRecognised(String numbering, String address) {
        SiteFiles files = new SiteFiles(folder)
                .spoil("site.yaml", "numbering: data-model", "numbering: " + numbering)
                .write(
                        "points/hot-water.csv",
                        HEADER + "a,holding-register,40001,uint16,,status\nb,input-register,30007,uint16,,status\n"
                                + "c,coil,3,bit,,status\n");
        assertThat(doubts(files))
                .containsExactly("warning points/hot-water.csv:2:20: address: all 2 addresses of inputs and registers"
                        + " begin with their table's digit, as in numbering prefixed, and the numbering of type"
                        + " hot-water is " + numbering + ": holding-register " + address
                        + " would be wire 0 in numbering prefixed");
    }

    @Test
    void oneAddressThatCannotBePrefixedClearsTheList() {
        assertThat(doubts("a,holding-register,40001,uint16,,status\nb,holding-register,7,uint16,,status\n"))
                .isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "data-model, holding-register, 0, ; a manual with an address 0 counts as wire",
        "data-model, holding-register, 400001, ; it looks like numbering prefixed",
        "wire, input-register, 300012, ; it looks like numbering prefixed",
        "prefixed, input-register, 40001, ; with that digit in front it is a holding-register",
        "prefixed, holding-register, 12, ; a manual without the digit counts as wire or data-model"
    })
    void anAddressOfAnotherNumberingIsRefusedWithItsName(
            String numbering, String table, String address, String expected) {
        SiteFiles files = new SiteFiles(folder)
                .spoil("site.yaml", "numbering: data-model", "numbering: " + numbering)
                .write("points/hot-water.csv", HEADER + "a," + table + "," + address + ",uint16,,status\n");
        assertThat(files.errors()).singleElement().asString().endsWith(expected);
    }

    @Test
    void whatNoControllerUsesIsTold() {
        SiteFiles files = new SiteFiles(folder);
        files.write(
                "site.yaml",
                SiteFiles.SITE
                        .replace("types:", "  spare: {tcp: {host: 127.0.0.2}}\ntypes:")
                        .replace(
                                "controllers:",
                                "  steam: {points: points/hot-water.csv, numbering: wire}\ncontrollers:"));
        assertThat(doubts(files))
                .contains(
                        "warning site.yaml:6:10: lines.spare: is not the line of any controller, and is not opened",
                        "warning site.yaml:9:10: types.steam: is not the type of any controller, and nothing of it is"
                                + " read");
    }

    @Test
    void aControllerOfWhichNothingIsReadIsTold() {
        assertThat(doubts("a,coil,1,bit,,lockout-reset\n"))
                .containsExactly("warning site.yaml:9:13: controllers.boiler-1: no point of type hot-water is read, so"
                        + " this controller shows nothing");
    }

    @Test
    void aPauseThatIsLongerThanAnIntervalIsTold() {
        SiteFiles files =
                new SiteFiles(folder).spoil("site.yaml", "order: low-word-first", "order: low-word-first, pause: 2 s");
        assertThat(doubts(files))
                .anySatisfy(told -> assertThat(told)
                        .startsWith("warning site.yaml: lines.annex: boiler-1.")
                        .contains("will not be read every 2 s, but about every 2.0 s: one read alone takes that long,"
                                + " with the pause of 2 s that its type asks for"));
    }

    @Test
    void aReplyTimeoutThatIsLongerThanAnIntervalIsNoted() {
        assertThat(doubts("a,coil,1,bit,,status,,,,,,,200 ms\n"))
                .containsExactly("note site.yaml: lines.annex.reply-timeout: 500 ms is longer than the interval of a,"
                        + " 200 ms: one reply that does not come makes it miss its next reading");
    }

    @Test
    void theLimitOfARealIsToldToTheLastDigit() {
        assertThat(doubts("a,holding-register,1,uint32,,counter,,,,,,,,analog-input\n"))
                .singleElement()
                .asString()
                .startsWith("warning points/hot-water.csv:2:45: object: an analog-input shows a uint32 as a REAL, which"
                        + " is exact for whole numbers up to 16777216 only");
    }

    @Test
    void aListThatTwoTypesShareIsToldOnce() {
        SiteFiles files = new SiteFiles(folder);
        files.write(
                "site.yaml",
                SiteFiles.SITE
                        .replace(
                                "controllers:",
                                "  copy: {points: points/hot-water.csv, numbering: data-model, order: low-word-first}\n"
                                        + "controllers:")
                        .replace(
                                "bacnet:",
                                "  boiler-2: {line: annex, unit: 2, type: copy, instance-base: 2000}\nbacnet:"));
        files.write("points/hot-water.csv", SiteFiles.POINTS.replace("input-register,1,", "input-register,0,"));
        assertThat(files.errors()).hasSize(1);
        files.write("points/hot-water.csv", SiteFiles.POINTS);
        assertThat(files.load().site().orElseThrow().points()).hasSize(12);
    }
}
