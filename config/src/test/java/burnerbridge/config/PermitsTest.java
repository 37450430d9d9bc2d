package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.QuillmereWithPermits;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.Storage;
import burnerbridge.site.permit.WritePermit;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Write permits, as they are loaded; what is refused by its own keys stands in {@code damaged-sites.txt}. */
class PermitsTest {
    private static final String SITE = """
            site: quillmere
            time-zone: Europe/Lisbon
            lines: {annex: {tcp: {host: 192.0.2.7}}, house: {rtu-over-tcp: {host: 192.0.2.8, port: 7001}}}
            types:
              plain: {points: plain.csv, numbering: data-model, tables: separate, identity: serial, protected: [coil 9], watchdog: 1 min}
              other: {points: other.csv, numbering: data-model, tables: separate, identity: serial, protected: [coil 9]}
            controllers:
              boiler-1: {line: annex, unit: 1, type: plain}
              boiler-2: {line: house, unit: 1, type: plain}
            mqtt: {brokers: ['tcp://127.0.0.1:1883'], root: plant}
            write-permits:
              - {point: boiler-1.load, from: {mqtt: true}, range: 20..90, interval: 1 min, storage: volatile,
                 function: 6, silence-after: 30 s, on-silence: write 20, reason: summer}
            """;

    private static final String PLAIN = """
            name,table,address,format,scale,unit,show-unit,role,states,valid,no-value,means,access,scale-by,source
            load,holding-register,20,uint16,0.1,%,,demand,,,,,,,p. 1
            serial,holding-register,30,text:4,,,,identity,,,,serial-number,,,p. 2
            """;

    private static final String OTHER = """
            name,table,address,format,role,means,source
            limit,holding-register,10,uint16,safety-setting,,p. 1
            serial,holding-register,30,text:4,identity,,p. 2
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder)
                .write("site.yaml", SITE)
                .write("plain.csv", PLAIN)
                .write("other.csv", OTHER);
    }

    private static WritePermit permit(SiteFolder loaded, String controller, String point) {
        PointId id = new PointId(new Name(controller), new Name(point));
        return loaded.site().orElseThrow().permits().stream()
                .filter(permit -> permit.point().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private WritePermit load() {
        return permit(files.load(), "boiler-1", "load");
    }

    private Purpose.Asked asked() {
        return load().asked().orElseThrow();
    }

    /** The site with another row and another permit of it. */
    private void ofRow(String row, String permit) {
        files.write("plain.csv", PLAIN.replaceFirst("(?m)^load,.*$", row))
                .write(
                        "site.yaml",
                        SITE.replaceFirst("(?s)  - \\{point: .*", "  - {point: boiler-1.load, " + permit + "}\n"));
    }

    private List<String> told(Problem.Severity severity) {
        return files.load().problems().stream()
                .filter(problem -> problem.severity() == severity)
                .map(Problem::message)
                .toList();
    }

    @Test
    void theExampleSiteWithPermitsIsSoundAndHasThemAll() throws IOException {
        Path site = folder.resolve("permitted");
        QuillmereWithPermits.writeTo(site);
        SiteFolder loaded = SiteFolder.load(site);
        assertThat(loaded.problems())
                .filteredOn(problem -> problem.isError() || problem.isWarning())
                .isEmpty();
        assertThat(loaded.site().orElseThrow().permits())
                .extracting(permit -> permit.point() + " " + permit.function())
                .containsExactly(
                        "boiler-1.load-limit 6",
                        "boiler-1.remote-enable 5",
                        "boiler-2.load-limit 16",
                        "boiler-2.remote-enable 15",
                        "steam-1.load-limit 6");
        Purpose.Asked enable =
                permit(loaded, "boiler-1", "remote-enable").asked().orElseThrow();
        assertThat(enable.allowed()).isEqualTo(new Allowed.States(Set.of(0L, 1L)));
        assertThat(enable.mqttPriority()).isEqualTo(10);
        assertThat(enable.silence())
                .contains(new Silence(Duration.ofMinutes(15), new Silence.Action.Write(BigDecimal.ZERO)));
    }

    @Test
    void whatIsNotSaidIsTheWholeRangePriorityTwelveAndAMemoryThatWears() {
        files.write("site.yaml", SITE.replace("storage: volatile", "lifetime-writes: 900000"));
        assertThat(asked().step()).isEmpty();
        assertThat(asked().mqttPriority()).isEqualTo(12);
        assertThat(asked().from().bacnet()).isEmpty();
        assertThat(load().storage()).isEqualTo(Storage.nonVolatile(900_000));
    }

    @Test
    void aPermitIsForOneControllerOfItsTypeAlone() {
        assertThat(files.load().site().orElseThrow().permits())
                .extracting(WritePermit::point)
                .containsExactly(new PointId(new Name("boiler-1"), new Name("load")));
    }

    @Test
    void rangeStepAndSilenceAreConvertedLikeValid() {
        ofRow(
                "load,holding-register,20,uint16,0.1,°C,°F,demand,,-10..100,,,,,p. 1",
                "from: {mqtt: true}, range: 20..90.5, step: 5, interval: 1 min, storage: volatile, function: 6,"
                        + " silence-after: 30 s, on-silence: write 20.5, reason: summer");
        Allowed.Range range = (Allowed.Range) asked().allowed();
        // 20 °C are 68 °F, 90.5 °C are 194.9 °F, 5 °C more are 9 °F more, 20.5 °C are 68.9 °F.
        assertThat(range.low()).isEqualByComparingTo("68");
        assertThat(range.high()).isEqualByComparingTo("194.9");
        assertThat(asked().step().orElseThrow()).isEqualByComparingTo("9");
        Silence.Action action = asked().silence().orElseThrow().action();
        assertThat(((Silence.Action.Write) action).value()).isEqualByComparingTo("68.9");
    }

    @Test
    void aHeartbeatHasItsBeatAndNoAsker() {
        ofRow(
                "load,holding-register,20,uint16,,,,heartbeat,,,,,,,p. 1",
                "every: 10 s, pattern: count to 999, storage: volatile, function: 16, reason: minds us");
        assertThat(load().asked()).isEmpty();
        assertThat(load().beat()).contains(new Purpose.Beat(Duration.ofSeconds(10), new Purpose.Pattern.Count(999)));
    }

    @Test
    void aRecordSelectionIsReadBackByTheWriterAndNeedsNoSilence() {
        ofRow(
                "load,holding-register,20,uint16,,,,record-select,,,,,,,p. 1",
                "from: {mqtt: true}, range: 1..8, interval: 1 s, storage: volatile, function: 6, reason: shows one");
        assertThat(asked().silence()).isEqualTo(Optional.empty());
    }

    @Test
    void tablesAreSeparateOnlyWhereTheTypeSaysSo() {
        String readOnly = SITE.replaceFirst("(?s)write-permits:.*", "");
        for (String said : List.of("tables: separate, ", "tables: mirror, ", "")) {
            files.write("site.yaml", readOnly.replaceFirst("tables: separate, ", said));
            assertThat(files.load()
                            .site()
                            .orElseThrow()
                            .controllers()
                            .get(0)
                            .type()
                            .options()
                            .separateTables())
                    .isEqualTo(said.equals("tables: separate, "));
        }
    }

    /** Rows of a boiler and a permit that fits but for the row. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "load,holding-register,20,text:2,,,,demand,,,,,,,p. 1 # holds 'text:2', and only numbers, bits and states are ever written",
                "load,holding-register,20,epoch32,,,,demand,,,,,,,p. 1 # holds 'epoch32', and only numbers, bits and states are ever written",
                "load,holding-register,20,datetime:y-md,,,,demand,,,,,,,p. 1 # holds 'datetime:y-md', and only numbers",
                "load,holding-register,20+25,uint32,0.1,,,demand,,,,,,,p. 1 # has its words apart, and no one write takes both",
                "load,discrete-input,20,bit,,,,enable,,,,,,,p. 1 # cannot be written: no function writes to the table discrete-input",
                "load,holding-register,20,uint16,0.1,%,,demand,,,,,write,,p. 1 # says write under access: what is written must be read back, and it cannot be",
                "load,holding-register,20,uint16,,,,enable,,,,,,,p. 1 # has the role enable and must be a bit or have states; it holds a number (format 'uint16')",
                "load,coil,20,bit,,,,enable,0=on|1=off,,,,,,p. 1 # says under states that number 1 is off; what is written when nobody asks any more is number 0",
                "load,holding-register,20,uint16,,,,mode,,,,,,,p. 1 # has the role mode and must be a bit or have states",
                "load,holding-register,20,uint16,0.1,%,,demand,,,,,,, # line 2 of plain.csv, has no source",
                "load,holding-register,30,uint16,0.1,%,,demand,,,,,,,p. 1 # can never be written: a write could change serial of boiler-1 at holding-register 30 (wire 29), whose role is identity",
                "load,holding-register,29,uint32,0.1,%,,demand,,,,,,,p. 1 # can never be written: a write could change serial of boiler-1",
                "load,holding-register,20,uint16,0.1,%,,demand,,,20,,,,p. 1 # no error",
                "load,holding-register,20,uint16,0.1,%,,demand,,,200,,,,p. 1 # holds 20 %, whose raw number 200 says by no-value that there is none",
                "load,holding-register,20,int16,0.1,%,,demand,,,0xFFFF,,,,p. 1 # no error",
                "load,holding-register,20,bcd16,0.001,%,,demand,,,,,,,p. 1 # a bcd16 holds 0 % to 9.999 % here (was '20..90')",
                "load,holding-register,20,sign-magnitude16,-0.001,%,,demand,,,,,,,p. 1 # a sign-magnitude16 holds -32.767 % to 32.767 % here (was '20..90')",
                "load,holding-register,20,uint16,15,%,,demand,,,,,,,p. 1 # would reach the controller as 15 %, the nearest value that its registers hold, and that may not be written (was 'write 20')",
                "load,holding-register,20,uint16,0.1,%,,demand,,25..95,,,,,p. 1 # must lie inside valid, 25 % to 95 % (was '20..90')"
            })
    void aRowThatCannotBeWrittenIsToldWithWhatForbidsIt(String row, String expected) {
        ofRow(
                row,
                "from: {mqtt: true}, range: 20..90, interval: 1 min, storage: volatile, function: 6,"
                        + " silence-after: 30 s, on-silence: write 20, reason: summer");
        if (expected.equals("no error")) {
            assertThat(told(Problem.Severity.ERROR)).isEmpty();
        } else {
            assertThat(told(Problem.Severity.ERROR))
                    .anySatisfy(message -> assertThat(message).contains(expected));
            assertThat(files.load().site()).isEmpty();
        }
    }

    @Test
    void aRowWhoseDecimalsAnotherHoldsOrThatAReadClearsCannotBePermitted() {
        String permit = "from: {mqtt: true}, range: 20..90, interval: 1 min, storage: volatile, function: 6,"
                + " silence-after: 30 s, on-silence: write 20, reason: summer";
        ofRow(
                "load,holding-register,20,uint16,,%,,demand,,,,,,decimals,p. 1\ndecimals,holding-register,21,uint16,,,,status,,,,,,,",
                permit);
        assertThat(told(Problem.Severity.ERROR))
                .anySatisfy(message -> assertThat(message).contains("takes its decimals from decimals"));
        files.write("plain.csv", PLAIN.replace("scale-by", "on-read").replace(",,,,,,,p. 1", ",,,,,,clears,p. 1"));
        assertThat(told(Problem.Severity.ERROR))
                .anySatisfy(message -> assertThat(message).contains("says clears under on-read"));
    }

    /** Something said of the type, the controller or the permit, and what is told. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "identity: serial, protected: [coil 9], watchdog # protected: [coil 9], watchdog # types.plain.identity is missing",
                "identity: serial, protected: [coil 9], watchdog # identity: serial, watchdog # types.plain.protected names nothing",
                "identity: serial, protected: [coil 9], watchdog # identity: serial, protected: [holding-register 19-20], watchdog # the protected range holding-register 19-20 (wire 18..19) of type plain",
                "unit: 1, type: plain} # unit: 0, type: plain} # unit 0 of line annex is never written",
                "unit: 1, type: plain} # unit: 255, type: plain} # ",
                "on-silence: write 20 # on-silence: release # ",
                "silence-after: 30 s, on-silence: write 20 # silence-after: 61 s, on-silence: release # must be at most 1 min, types.plain.watchdog",
                "boiler-2: {line: house, unit: 1, type: plain} # boiler-2: {line: annex, unit: 1, type: other, address-offset: 10} # limit of boiler-2 at holding-register 10 (wire 19), whose role is safety-setting"
            })
    void whatIsSaidElsewhereCounts(String from, String to, @Nullable String expected) {
        assertThat(SITE).contains(from);
        String text = SITE.replaceFirst(Pattern.quote(from), to);
        files.write("site.yaml", text);
        if (to.contains("address-offset")) {
            // No row of the other may meet one of this.
            files.write("plain.csv", PLAIN.replace("register,30,", "register,60,"));
            files.write("other.csv", OTHER.replace("register,30,", "register,90,"));
        }
        if (expected == null) {
            assertThat(told(Problem.Severity.ERROR)).isEmpty();
        } else {
            assertThat(told(Problem.Severity.ERROR))
                    .anySatisfy(message -> assertThat(message).contains(expected));
        }
    }

    @Test
    void anIdentityThatMeansModelOrFirmwareIsNone() {
        for (String meaning : List.of("model", "firmware")) {
            files.write("plain.csv", PLAIN.replace("serial-number", meaning));
            assertThat(told(Problem.Severity.ERROR))
                    .singleElement()
                    .asString()
                    .contains("types.plain.identity names serial, which says " + meaning + " under means");
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "10 s  # 100000 # at one write in 10 s, 100,000 writes last 11.6 days (100,000 × 10 s), and then nothing is written any more; at one in 6 min they last a year",
                "1 s   # 1000   # at one write in 1 s, 1,000 writes last 16.7 minutes (1,000 × 1 s), and then nothing is written any more; at one in 526 min they last a year",
                "1 min # 525599 # at one write in 1 min, 525,599 writes last 365.0 days",
                "1 min # 525600 # ",
                "24 h  # 365    # ",
                "24 h  # 300    # at one write in 24 h, 300 writes last 300.0 days (300 × 24 h), and then nothing is written any more"
            })
    void aPermitThatWearsTheMemoryWithinAYearIsWarnedOfWithTheNumbers(
            String interval, String writes, @Nullable String expected) {
        files.write(
                "site.yaml",
                SITE.replace(
                        "interval: 1 min, storage: volatile",
                        "interval: " + interval + ", lifetime-writes: " + writes));
        if (expected == null) {
            assertThat(told(Problem.Severity.WARNING)).noneMatch(message -> message.contains("writes last"));
        } else {
            assertThat(told(Problem.Severity.WARNING))
                    .anySatisfy(message ->
                            assertThat(message).startsWith("write-permits.boiler-1.load.interval: " + expected));
        }
        assertThat(files.load().site()).isPresent();
    }

    @Test
    void aHeartbeatNoFasterThanTheWatchdogIsWarnedOf() {
        ofRow(
                "load,holding-register,20,uint16,,,,heartbeat,,,,,,,p. 1",
                "every: 1 min, pattern: toggle, storage: volatile, function: 6, reason: minds us");
        assertThat(told(Problem.Severity.WARNING))
                .contains(
                        "write-permits.boiler-1.load.every: is no shorter than 1 min, types.plain.watchdog: between two"
                                + " heartbeats the controller may let a demand go");
    }

    @Test
    void anIntervalNoShorterThanTheWatchdogIsWarnedOf() {
        files.write("site.yaml", SITE);
        assertThat(told(Problem.Severity.WARNING))
                .contains("write-permits.boiler-1.load.interval: is no shorter than 1 min, types.plain.watchdog, and no"
                        + " heartbeat is permitted: the controller lets a demand go before it may be written again");
        files.write("site.yaml", SITE.replace("interval: 1 min", "interval: 59 s"));
        assertThat(told(Problem.Severity.WARNING)).noneMatch(message -> message.contains(".interval:"));
    }

    @Test
    void thatEveryAddressMayAskIsWarnedOf() {
        files.write(
                "site.yaml",
                SITE.replace("from: {mqtt: true}", "from: {bacnet: [0.0.0.0/0]}")
                        + "bacnet: {device-instance: 1, bind: 127.0.0.1}\n");
        assertThat(told(Problem.Severity.WARNING))
                .contains("write-permits.boiler-1.load.from.bacnet: 0.0.0.0/0 lets every address ask");
    }

    @Test
    void aPointWhoseRowIsWrongIsToldOfInItsListAlone() {
        files.write("plain.csv", PLAIN.replace("uint16,0.1", "uint17,0.1"));
        assertThat(told(Problem.Severity.ERROR)).singleElement().asString().startsWith("format: must be one of");
    }

    @Test
    void everythingWrongWithAPermitIsToldAtOnce() {
        ofRow(
                "load,holding-register,20,uint16,0.1,%,,demand,,,,,,,",
                "from: {bacnet: [x]}, range: 9..1, interval: 5, function: 5, mqtt-priority: 6, silence-after: 1, on-silence: stop, setp: 1");
        assertThat(told(Problem.Severity.ERROR))
                .extracting(message -> message.replaceFirst("^write-permits\\.boiler-1\\.load\\.([^:]*):.*$", "$1"))
                .containsExactlyInAnyOrder(
                        "setp",
                        "point",
                        "from.bacnet",
                        "range",
                        "interval",
                        "lifetime-writes",
                        "function",
                        "mqtt-priority",
                        "silence-after",
                        "on-silence",
                        "reason");
    }

    @Test
    void aRangeInAnotherUnitIsHeldAgainstTheRegistersInTheRowsUnit() {
        ofRow(
                "load,holding-register,20,uint8-low,,bar,mbar,demand,,,,,,,p. 1",
                "from: {mqtt: true}, range: 2..300, interval: 1 min, storage: volatile, function: 22,"
                        + " silence-after: 30 s, on-silence: write 2, reason: summer");
        assertThat(told(Problem.Severity.ERROR))
                .singleElement()
                .asString()
                .isEqualTo("write-permits.boiler-1.load.range: a uint8-low holds 0 bar to 255 bar here (was '2..300')");
    }
}
