package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.binding.BindingChoices;
import burnerbridge.config.problem.Problem;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Mistakes and what is said of them: the place, what is allowed, what was found. */
class SiteErrorsTest {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private void assertOnly(SiteFiles files, String expected) {
        assertThat(files.errors()).singleElement().asString().startsWith(expected);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "site: quillmere # sight: quillmere # site.yaml:1:1: sight: is not known here",
                "site: quillmere # site: Quillmere # site.yaml:1:7: site: a name is lower-case",
                "time-zone: Europe/Lisbon # time-zone: Europe/Lisbonn # site.yaml:3:12: time-zone: is not a time zone (was 'Europe/Lisbonn'); did you mean 'Europe/Lisbon'?",
                "port: 1502 # port: 99999 # site.yaml:5:40: lines.annex.tcp.port: must be 1 to 65535 (was 99999)",
                "host: 127.0.0.1 # host: 127.0.0.1:502 # site.yaml:5:23: lines.annex.tcp.host: must be a name or an address alone, the port is a key of its own (was '127.0.0.1:502')",
                "host: 127.0.0.1 # host: '127.0.0.1 ' # site.yaml:5:23: lines.annex.tcp.host: must be a name or an address alone",
                "host: 127.0.0.1 # host: '' # site.yaml:5:23: lines.annex.tcp.host: must be a name or an address alone",
                "port: 1502 # prt: 1502 # site.yaml:5:34: lines.annex.tcp.prt: is not known here (known: host, port); did you mean 'port'?",
                "tcp: {host: 127.0.0.1, port: 1502}, # # site.yaml:5:10: lines.annex: must say where it leads",
                "reply-timeout: 500 ms # reply-timeout: 500 # site.yaml:5:62: lines.annex.reply-timeout: must be a number with ms, s, min or h, like '2 s' (was '500')",
                "reply-timeout: 500 ms # reply-timeout: 5 ms # site.yaml:5:62: lines.annex.reply-timeout: must be 20 ms to 1 min (was '5 ms')",
                "numbering: data-model, # # site.yaml:7:14: types.hot-water.numbering: is missing; how the manual counts",
                "numbering: data-model # numbering: data # site.yaml:7:56: types.hot-water.numbering: must be one of wire, data-model, prefixed (was 'data')",
                "order: low-word-first # order: low-word # site.yaml:7:75: types.hot-water.order: must be one of",
                "line: annex # line: anex # site.yaml:9:20: controllers.boiler-1.line: must be one of annex (was 'anex'); did you mean 'annex'?",
                "unit: 1 # unit: 300 # site.yaml:9:33: controllers.boiler-1.unit: must be 0 to 255 (was 300)",
                "unit: 1 # unit: 250 # site.yaml:9:33: controllers.boiler-1.unit: must be 0 to 247, or 255 (was 250)",
                "unit: 1, # # site.yaml:9:13: controllers.boiler-1.unit: is missing; the Modbus unit identifier",
                "type: hot-water, # type: steam, # site.yaml:9:42: controllers.boiler-1.type: must be one of hot-water (was 'steam')",
                "device-instance: 711001, # # site.yaml:10:9: bacnet.device-instance: is missing; ask the owner",
                "device-instance: 711001 # device-instance: 4194303 # site.yaml:10:27: bacnet.device-instance: must be 0 to 4194302 (was 4194303)",
                "bind: 127.0.0.1 # bind: localhost # site.yaml:10:41: bacnet.bind: must be an IPv4 address",
                "bind: 127.0.0.1 # layout: one-device, bind: 127.0.0.1 # site.yaml:10:35: bacnet.layout: is not supported by this version yet",
                "root: plant # root: Plant # site.yaml:11:49: mqtt.root: must be lower-case words",
                "tcp://127.0.0.1:1883 # ssl://127.0.0.1:8883 # site.yaml:11:17: mqtt.brokers: must be tcp://host:port, or tls://host:port for an encrypted connection",
                "tcp://127.0.0.1:1883 # 127.0.0.1 # site.yaml:11:17: mqtt.brokers: must be tcp://host:port, or tls://host:port for an encrypted connection (was '127.0.0.1')",
                "write-permits: [] # write-permits: [{point: boiler-1.starts}] # site.yaml:12:25: write-permits.boiler-1.starts.point: starts of boiler-1 at holding-register 12 (wire 11) has the role counter",
                "site: quillmere # site: [ # site.yaml:3:10: is not YAML:",
                "site: quillmere # {} # site.yaml:2:1: is not YAML:"
            })
    void aMistakeInTheSiteFileIsToldWithItsPlace(String from, String to, String expected) {
        SiteFiles files = new SiteFiles(folder).spoil("site.yaml", from, to == null ? "" : to);
        assertThat(files.errors()).isNotEmpty();
        assertThat(files.errors()).anySatisfy(e -> assertThat(e).startsWith(expected));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "name,description # nam,description # points/hot-water.csv:1:1: column 'nam' is not known",
                "order,scale # order,order # points/hot-water.csv:1:45: column 'order' stands here twice",
                "water-temperature, # Water, # points/hot-water.csv:2:1: name: a name is lower-case words",
                "water-temperature, # , # points/hot-water.csv:2:1: name: is empty; every row needs one",
                "starts,Starts # phase,Starts # points/hot-water.csv:7:1: name: 'phase' is also the name of line 4",
                "input-register,1, # input-registers,1, # points/hot-water.csv:2:32: table: must be one of coil, discrete-input, input-register, holding-register (was 'input-registers'); did you mean 'input-register'?",
                "input-register,1, # input-register,0, # points/hot-water.csv:2:47: address: must be 1 to 65536, since the numbering of type hot-water is data-model (was '0')",
                "input-register,2,float32 # input-register,65536,float32 # points/hot-water.csv:3:37: address: a float32 at 65536 (wire 65535) runs past the end of its table",
                "1,int16 # 1,int17 # points/hot-water.csv:2:49: format: must be one of uint16, int16, uint32, int32, uint64, int64, float32, float64, int8-high, int8-low, uint8-high, uint8-low, sign-magnitude16, bcd16, bcd32, decimal-words:N, bit, bit:N, bits:LOW-HIGH, text:N, datetime:FIELDS, epoch32, reserved, reserved:N (was 'int17'); did you mean 'int16'?",
                "1,int16 # 1,reservd # points/hot-water.csv:2:49: format: must be one of uint16, int16, uint32, int32, uint64, int64, float32, float64, int8-high, int8-low, uint8-high, uint8-low, sign-magnitude16, bcd16, bcd32, decimal-words:N, bit, bit:N, bits:LOW-HIGH, text:N, datetime:FIELDS, epoch32, reserved, reserved:N (was 'reservd'); did you mean 'reserved'?",
                "1,int16 # 1,bit # points/hot-water.csv:2:49: format: 'bit' is for coils and discrete inputs",
                "007,bit # 007,uint16 # points/hot-water.csv:5:32: format: a discrete-input takes only 'bit' (was 'uint16')",
                "bit:3 # bit:16 # points/hot-water.csv:6:40: format: a register has bits 0 to 15 (was 'bit:16')",
                "int16,,0.1 # int16,low-word-first,0.1 # points/hot-water.csv:2:55: order: means nothing for 'int16'",
                "0.1,0,°C # 0,0,°C # points/hot-water.csv:2:56: scale: must be between 1e-12 and 1e12",
                "0.1,0,°C # ten,0,°C # points/hot-water.csv:2:56: scale: must be a decimal number with a point, like 0.1 (was 'ten')",
                "0.1,0,°C # 0.1,0,C # points/hot-water.csv:2:62: unit: must be a symbol or UCUM code of the table of units (was 'C'); did you mean '°C'?",
                "°C,measurement # °C,mesurement # points/hot-water.csv:2:65: role: must be one of",
                "°C,measurement # °C, # points/hot-water.csv:2:65: role: is empty; every row needs one",
                "measurement,5 s,20 s # measurement,5,20 s # points/hot-water.csv:3:79: every: must be a number with ms, s, min or h",
                "measurement,5 s,20 s # measurement,5 s,4 s # points/hot-water.csv:3:83: stale-after: must be longer than the interval of 5 s (was '4 s')",
                "0=standby|1=purge # 0=standby;1=purge # points/hot-water.csv:4:58: states: must be number=text, separated by |",
                "0=standby|1=purge # 0=standby|purge # points/hot-water.csv:4:58: states: must be number=text, separated by |, like 0=standby|1=purge (was 'purge')",
                "0=standby|1=purge # 0=standby|0=purge # points/hot-water.csv:4:58: states: state 0 stands here twice",
                "0=off|1=on # 0=off|2=on # points/hot-water.csv:5:49: states: a bit has states 0 and 1 only",
                "uint16,,,,,status # uint16,,10,,,status # points/hot-water.csv:4:46: scale: a point with states is not scaled",
                "none,, # analog-input,, # points/hot-water.csv:6:61: object: a bit:3 becomes a binary-input, a binary-value, or none (was 'analog-input')",
                "p. 12,seen # p. 12,seen,more # points/hot-water.csv:2:93: this row has more cells than the header (18 for 17)",
                "Starts,holding # \"Starts,holding # points/hot-water.csv:7:8: is not CSV: the quoted cell that begins here does not end as one should (seen in line 8, column 1)"
            })
    void aMistakeInThePointListIsToldWithItsPlace(String from, String to, String expected) {
        SiteFiles files = new SiteFiles(folder).spoil("points/hot-water.csv", from, to);
        assertThat(files.errors()).isNotEmpty();
        assertThat(files.errors()).anySatisfy(e -> assertThat(e).startsWith(expected));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "format # text:0 # format: takes 1 to 60 registers (was 'text:0')",
                "format # text:x # format: takes 1 to 60 registers",
                "format # decimal-words:5 # format: takes 2 to 4 registers (was 'decimal-words:5')",
                "format # bits:7-4 # format: must hold 2 to 15 bits, the lower one first (was 'bits:7-4')",
                "format # bits:0-15 # format: must hold 2 to 15 bits",
                "format # bits:4 # format: must be bits:LOW-HIGH",
                "format # bits:4-16 # format: a register has bits 0 to 15 (was 'bits:4-16')",
                "format # datetime:y-m # format: must hold year, month and day once each",
                "format # datetime:y-m-d-m # format: must hold year, month and day once each",
                "format # datetime:ymd # format: must hold year, month and day once each",
                "valid # 9 # valid: must be low..high",
                "valid # 9..0 # valid: must be low..high, the lower one first, like -20..150 (was '9..0')",
                "no-value # 0xZZ # no-value: must be raw numbers",
                "no-value # 1;2 # no-value: must be raw numbers, decimal or with 0x, separated by |, like 0x7FFF|0x8000 (was '1;2')",
                "raw-low # 0 # raw-low: needs all of raw-low, raw-high, low, high",
                "change # -1 # change: must be 0 to 1e12",
                "change # 1e99 # change: must be 0 to 1e12",
                "states # 70000=a # states: a uint16 holds 0 to 65535 (was 70000)",
                "states # -1=a # states: a uint16 holds 0 to 65535 (was -1)"
            })
    void aMistakeInACellOfItsOwnIsTold(String column, String cell, String expected) {
        boolean format = column.equals("format");
        SiteFiles files = new SiteFiles(folder)
                .write(
                        "points/hot-water.csv",
                        "name,table,address,format,role" + (format ? "" : "," + column) + "\na,holding-register,1,"
                                + (format ? cell + ",status" : "uint16,status," + cell) + "\n");
        String place = format ? "points/hot-water.csv:2:22: " : "points/hot-water.csv:2:36: ";
        assertOnly(files, place + expected);
    }

    @Test
    void aColumnThatLostItsNameIsNeverIgnored() {
        SiteFiles files = new SiteFiles(folder).spoil("points/hot-water.csv", "order,scale,offset", "order,,offset");
        assertOnly(
                files,
                "points/hot-water.csv:2:56: the header has no name for this column, so what it holds would be lost"
                        + " (was '0.1')");
    }

    @Test
    void aReplyMayNotTakeLongerThanAReadingHolds() {
        SiteFiles files = new SiteFiles(folder).spoil("site.yaml", "reply-timeout: 500 ms", "reply-timeout: 60 s");
        assertOnly(
                files,
                "site.yaml: lines.annex.reply-timeout: 1 min and the interval of water-temperature, 2 s, together must"
                        + " be shorter than its stale-after of 10 s");
    }

    @ParameterizedTest
    @CsvSource({"points: '', points", "points: nowhere.csv, points"})
    void aPointListThatIsNotThereIsToldWhereItIsNamed(String points, String key) {
        SiteFiles files =
                new SiteFiles(folder).spoil("site.yaml", "points: points/hot-water.csv", points.replace("''", "\"\""));
        assertOnly(files, "site.yaml:7:23: types.hot-water." + key + ": must be a file in the site folder");
    }

    @ParameterizedTest
    @CsvSource({"tcp://127.0.0.1:1883/", "tcp://127.0.0.1:1883?x=y", "tcp://127.0.0.1:99999", "tcp://u@127.0.0.1:1883"})
    void aBrokerIsAHostAndAPort(String broker) {
        SiteFiles files = new SiteFiles(folder).spoil("site.yaml", "tcp://127.0.0.1:1883", broker);
        assertOnly(
                files,
                "site.yaml:11:17: mqtt.brokers: must be tcp://host:port, or tls://host:port for an encrypted connection (was '"
                        + broker + "')");
    }

    @ParameterizedTest
    @CsvSource({
        "tcp://192.0.2.5:1883, true",
        "tcp://broker.example:1883, true",
        "tcp://localhost:1883, false",
        "tcp://127.0.0.9:1883, false",
        "tcp://127.broker.example:1883, true",
        "tcp://[::1]:1883, false",
        "tls://192.0.2.5:8883, false",
        "mqtts://192.0.2.5:8883, false"
    })
    void anUnencryptedBrokerBeyondThisMachineIsWarnedOf(String broker, boolean warned) {
        List<String> problems = new SiteFiles(folder)
                .spoil("site.yaml", "tcp://127.0.0.1:1883", broker).load().problems().stream()
                        .map(Problem::toString)
                        .toList();
        assertThat(problems.stream()
                        .anyMatch(p -> p.startsWith("site.yaml:11:17: mqtt.brokers: " + broker + " is not encrypted")))
                .isEqualTo(warned);
    }

    /** Long enough to break a matcher that recurses. */
    @Test
    void aRootWithTooManyLevelsIsToldByItsLength() {
        SiteFiles files = new SiteFiles(folder).spoil("site.yaml", "root: plant", "root: plant" + "/a".repeat(100_000));
        assertOnly(files, "site.yaml:11:49: mqtt.root: must be at most 256 characters (was 200005)");
    }

    @Test
    void aRootOf256CharactersIsAccepted() {
        SiteFiles files = new SiteFiles(folder).spoil("site.yaml", "root: plant", "root: pl" + "/a".repeat(127));
        assertThat(files.load().site()).isPresent();
    }

    @Test
    void secretsHaveNoPlaceInTheSiteFolder() {
        Path inside = folder.resolve("sub/../secret");
        SiteFiles files = new SiteFiles(folder)
                .spoil("site.yaml", "root: plant", "root: plant, user: bridge, password-file: '" + inside + "'");
        assertOnly(
                files,
                "site.yaml:11:85: mqtt.password-file: must not be in the site folder, which is copied about (was '"
                        + inside + "')");
        SiteFiles web = new SiteFiles(folder)
                .spoil("site.yaml", "site: quillmere", "web: {token-file: '" + inside + "'}\nsite: quillmere");
        assertOnly(
                web,
                "site.yaml:1:19: web.token-file: must not be in the site folder, which is copied about (was '" + inside
                        + "')");
    }

    @ParameterizedTest
    @CsvSource({"0", "255", "248"})
    void aUnitOnALineOfRtuFramesIs1To247(int unit) {
        SiteFiles files = new SiteFiles(folder);
        files.write(
                "site.yaml",
                SiteFiles.SITE
                        .replace("tcp: {host: 127.0.0.1, port: 1502}", "rtu-over-tcp: {host: 127.0.0.1, port: 7001}")
                        .replace("unit: 1,", "unit: " + unit + ","));
        assertOnly(
                files,
                "site.yaml:9:33: controllers.boiler-1.unit: must be 1 to 247 on a line of RTU frames (was " + unit
                        + ")");
    }

    @Test
    void aKeyThatStandsTwiceIsToldOnce() {
        SiteFiles files = new SiteFiles(folder).spoil("site.yaml", "unit: 1,", "unit: 1, unit: 2,");
        assertOnly(files, "site.yaml:9:36: controllers.boiler-1.unit: stands here twice");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "1+2,uint16,, # 2:20: address: two addresses are for a value of two registers, and a uint16 is none",
                "1+2,float64,, # 2:20: address: two addresses are for a value of two registers",
                "1+0,uint32,, # 2:20: address: must be 1 to 65536",
                "1+2,uint32,low-word-first, # 2:38: order: where the words are apart",
                "1+2,uint32,,twice # 2:39: verify: a value whose words are apart is verified anyhow",
                "1,uint16,,twice # 2:37: verify: a uint16 takes one register and cannot be torn",
                "1,uint32,,thrice # 2:37: verify: must be one of twice (was 'thrice')"
            })
    void aMistakeInHowAValueIsKeptWholeIsTold(String cells, String expected) {
        String[] parts = cells.split(",", -1);
        SiteFiles files = new SiteFiles(folder)
                .write(
                        "points/hot-water.csv",
                        "name,table,address,format,role,order,verify\na,holding-register," + parts[0] + "," + parts[1]
                                + ",status," + parts[2] + "," + parts[3] + "\n");
        assertOnly(files, "points/hot-water.csv:" + expected);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "g, # g, # 3 # read-group: group g reaches over wire address 1, which is in no row",
                "g, # g, # 200 # read-group: group g spans 200 addresses, and one transaction reads 125",
                ",b # , # x # scale-by: must name a point of this list",
                ",nowhere # , # 2 # scale-by: must name a point of this list",
                ",a # , # 2 # scale-by: must name a point of this list",
                "g,b # h, # 2 # read-group: b is to be read with group g too, and a point has one group (was 'h')"
            })
    void aGroupThatOneTransactionCannotReadIsRefused(String first, String second, String address, String expected) {
        boolean stated = address.equals("x");
        SiteFiles files = new SiteFiles(folder)
                .write(
                        "points/hot-water.csv",
                        "name,table,address,format,role,states,read-group,scale-by\na,holding-register,1,uint16,status,,"
                                + first + "\nb,holding-register," + (stated ? "2" : address) + ",uint16,status,"
                                + (stated ? "0=off" : "") + "," + (second == null ? "," : second) + "\n");
        assertThat(files.errors()).singleElement().asString().contains(expected);
    }

    @Test
    void aGroupLiesInOneTable() {
        SiteFiles files = new SiteFiles(folder)
                .write(
                        "points/hot-water.csv",
                        "name,table,address,format,role,read-group\na,holding-register,1,uint16,status,g\n"
                                + "b,input-register,2,uint16,status,g\n");
        assertOnly(files, "points/hot-water.csv:3:1: read-group: the points of group g must lie in one table");
    }

    @Test
    void twoKindsOfScalingInARowAreRefused() {
        SiteFiles files = new SiteFiles(folder)
                .write(
                        "points/hot-water.csv",
                        "name,table,address,format,role,scale,raw-low,raw-high,low,high\n"
                                + "a,holding-register,1,uint16,status,0.1,0,100,0,1\n"
                                + "b,holding-register,2,uint16,status,,5,5,0,1\n"
                                + "c,holding-register,3,uint16,status,,0,100,1,1\n");
        assertThat(files.errors())
                .containsExactly(
                        "points/hot-water.csv:2:40: raw-low: stands beside scale or offset; a row has one kind of scaling",
                        "points/hot-water.csv:3:39: raw-high: must differ from raw-low (was 5)",
                        "points/hot-water.csv:4:45: high: must differ from low (was 1)");
    }

    @Test
    void twoControllersAtOneUnitOfOneLineAreRefused() {
        SiteFiles files = new SiteFiles(folder)
                .spoil(
                        "site.yaml",
                        "bacnet:",
                        "  boiler-2: {line: annex, unit: 1, type: hot-water, instance-base: 2000}\nbacnet:");
        assertOnly(files, "site.yaml:10:33: controllers.boiler-2.unit: unit 1 of line annex is already boiler-1");
    }

    @Test
    void twoLinesToOneEndpointAreRefused() {
        SiteFiles files = new SiteFiles(folder)
                .spoil("site.yaml", "types:", "  other: {tcp: {host: 127.0.0.1, port: 1502}}\ntypes:");
        assertOnly(files, "site.yaml:6:23: lines.other.tcp.host: 127.0.0.1:1502 is already line annex");
    }

    @Test
    void equalInstancesAreRefused() throws Exception {
        SiteFiles files = new SiteFiles(folder);
        files.load().bind(BindingChoices.NONE);
        files.spoil(
                "site.yaml",
                "bacnet:",
                "  boiler-2: {line: annex, unit: 2, type: hot-water, instance-base: 1004}\nbacnet:");
        assertOnly(
                files,
                "site.yaml:10:13: controllers.boiler-2.instance-base: 1004 gives boiler-2.water-temperature"
                        + " (bindings.csv line 2) analog-input 1005, which is already boiler-1.starts (bindings.csv"
                        + " line 6)");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "hot-water,starts,analog-input,5\\nhot-water,starts,analog-input,6 # bindings.csv:3:11: point: 'starts' is already bound in line 2",
                "hot-water,starts,analog-input,5\\nhot-water,oxygen,analog-input,5 # bindings.csv:3:31: offset: '5' is already bound in line 2",
                "hot-water,starts,analog-input,0 # bindings.csv:2:31: offset: must be 1 to 4194302 (was '0')",
                "hot-water,starts,analogue-input,5 # bindings.csv:2:18: object: must be one of",
                "hot-water,starts,analog-input,5,0=1 # bindings.csv:2:33: states: only a multi-state object has numbers of states",
                "hot-water,phase,multi-state-input,5,0=0 # bindings.csv:2:37: states: a multi-state number is 1 to 2000 (was 0)",
                "hot-water,phase,multi-state-input,5,0=1|7=1 # bindings.csv:2:37: states: multi-state number 1 stands here twice",
                "hot-water,phase,multi-state-input,5,0=1|0=2 # bindings.csv:2:37: states: state 0 stands here twice",
                "hot-water,phase,multi-state-input,5,standby # bindings.csv:2:37: states: must be the controller's number = the multi-state number",
                "hot-water,starts,analog-input,5,,,Old Name # bindings.csv:2:35: was: must be former names, separated by |: a name is lower-case",
                "hot-water,starts,analog-input,5,,,,maybe # bindings.csv:2:36: gone: must be empty, yes or for-good (was 'maybe')",
                "hot-water,starts,analog-input,4194302 # bindings.csv:2:1: offset: instance 4195302 of boiler-1.starts is past 4194302"
            })
    void aMistakeInTheBindingsIsToldWithItsPlace(String rows, String expected) {
        SiteFiles files = new SiteFiles(folder)
                .write(
                        "bindings.csv",
                        "type,point,object,offset,states,at,was,gone\n" + rows.replace("\\n", "\n") + "\n");
        assertThat(files.errors()).anySatisfy(e -> assertThat(e).startsWith(expected));
    }

    @Test
    void addressesFollowTheStatedNumbering() {
        SiteFiles files = new SiteFiles(folder).spoil("site.yaml", "numbering: data-model", "numbering: prefixed");
        files.write(
                "points/hot-water.csv",
                "name,table,address,format,role\na,holding-register,40001,uint16,status\nb,holding-register,465536,uint16,status\nc,coil,00010,bit,status\n");
        assertThat(files.load().site().orElseThrow().points().stream()
                        .map(p -> p.definition().wireAddress()))
                .containsExactly(0, 65535, 9);
        files.write("points/hot-water.csv", "name,table,address,format,role\na,input-register,40001,uint16,status\n");
        assertOnly(files, "points/hot-water.csv:2:18: address: must be the table's digit and four or five digits");
        files.spoil("site.yaml", "numbering: data-model", "numbering: wire");
        files.write("points/hot-water.csv", "name,table,address,format,role\na,coil,0xFFFF,bit,status\n");
        assertThat(files.load()
                        .site()
                        .orElseThrow()
                        .points()
                        .get(0)
                        .definition()
                        .wireAddress())
                .isEqualTo(65535);
    }
}
