package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SchemaKeys.Key;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The published schema and the loader, each held against the other. */
class SiteSchemaTest {
    private static final Pattern KNOWN = Pattern.compile("unheard-of: is not known here \\(known: (.*)\\)");

    /** Where the loader looks further than at the value: at other keys, other files, the zones that there are. */
    private static final Set<String> LOADER_KNOWS_MORE = Set.of(
            "controllers.NAME.address-offset",
            "controllers.NAME.line",
            "controllers.NAME.type",
            "language",
            "types.NAME.causes",
            "types.NAME.identity",
            "types.NAME.protected",
            "types.NAME.readable",
            "types.NAME.points",
            "types.NAME.read-clearing",
            "time-zone",
            "write-permits.ITEM.from.bacnet",
            "write-permits.ITEM.function",
            "write-permits.ITEM.on-silence",
            "write-permits.ITEM.pattern",
            "write-permits.ITEM.point",
            "write-permits.ITEM.range",
            "write-permits.ITEM.states",
            "write-permits.ITEM.step");

    private static final List<String> VALUES = List.of(
            "''",
            "' '",
            "'abc'",
            "'a-b'",
            "'A b'",
            "'-a'",
            "'link'",
            "'a/b'",
            "'a/'",
            "'a.b'",
            "'boiler-1'",
            "'annex'",
            "0",
            "1",
            "2",
            "3",
            "5",
            "20",
            "125",
            "126",
            "247",
            "248",
            "254",
            "255",
            "256",
            "9600",
            "9601",
            "19200",
            "65535",
            "65536",
            "4194302",
            "4194303",
            "999999999",
            "1000000000",
            "-1",
            "-5",
            "1.5",
            "'010'",
            "'0x10'",
            "'1'",
            "'0'",
            "'125'",
            "'126'",
            "'247'",
            "'248'",
            "'255'",
            "'9600'",
            "'65535'",
            "'65536'",
            "'4194302'",
            "'4194303'",
            "'0000000001'",
            "'000000001'",
            "true",
            "false",
            "null",
            "'true'",
            "'True'",
            "[]",
            "{}",
            "['latch']",
            "['latch', 2]",
            "[null]",
            "[[]]",
            "'20 ms'",
            "'19 ms'",
            "'60000 ms'",
            "'60001 ms'",
            "'10 s'",
            "'10s'",
            "'11 s'",
            "'60 s'",
            "'61 s'",
            "'1 min'",
            "'2 min'",
            "'0 s'",
            "'none'",
            "'24 h'",
            "'25 h'",
            "'1440 min'",
            "'86400001 ms'",
            "['holding-register 1-20']",
            "['holding-register']",
            "'0 h'",
            "'1 h'",
            "'1000 ms'",
            "'10000 ms'",
            "'10001 ms'",
            "'0000000001 s'",
            "'1,5 s'",
            "'s'",
            "'metric'",
            "'imperial'",
            "'Metric'",
            "'even'",
            "'odd'",
            "'high-word-first'",
            "'low-word-first+swap-bytes'",
            "'swap-bytes'",
            "'mirror'",
            "'separate'",
            "'volatile'",
            "'non-volatile'",
            "'6'",
            "6",
            "16",
            "22",
            "'22'",
            "'0..100'",
            "'-5.5 .. 90'",
            "'1..2..3'",
            "'write 20'",
            "'write 20.0'",
            "'write 91'",
            "'release'",
            "'toggle'",
            "'count to 255'",
            "'count to 70000'",
            "'boiler-2.load'",
            "'boiler-2.serial'",
            "'boiler-2'",
            "['192.0.2.0/24']",
            "['192.0.2.1/24']",
            "['0', '1']",
            "[0]",
            "[2]",
            "'wire'",
            "'data-model'",
            "'prefixed'",
            "'any'",
            "'auto'",
            "'rts-low'",
            "'/dev/b'",
            "'/dev/b/'",
            "'dev/b'",
            "'/'",
            "'0.0.0.0'",
            "'256.0.0.1'",
            "'1.2.3'",
            "'::1'",
            "'::'",
            "'127.0.0.9'",
            "'127.0.0.256'",
            "'environment'",
            "'a b'",
            "'Europe/Lisbon'",
            "'+01:00'",
            "'Europe/ Lisbon'",
            "['tcp://127.0.0.1:1883']",
            "['tcp://h-1.example:1']",
            "['tcp://h:0']",
            "['tcp://h:65536']",
            "['tcp://h:01883']",
            "['tcp://h']",
            "['tcp://h:1/']",
            "['tcp://1h:1']",
            "['tcp://a_b:1']",
            "['tcp://h.1h:1']",
            "['tcp://h.h1.:1']",
            "['tcp://256.0.0.1:1']",
            "['tcp://1.2.3:1']",
            "['tcp://7:1']",
            "['tcp://[::1]:1883']",
            "['ssl://h:1']",
            "['tls://h:8883']",
            "['mqtts://h:8883', 'tls://[::1]:8883']",
            "['tls://h']",
            "'3.1.1'",
            "'3.1'",
            "'a_b.c-1'",
            "'tcp://h:1'",
            "['tcp://-h:1']",
            "{'default': 32}",
            "{'default': 0}",
            "{'default': '32'}",
            "{'defualt': 32}",
            "{'holding-register 1-5': 8}",
            "{'holding-register 0x10 - 0x20': 8}",
            "{'input-register 5': 125}",
            "{'holding-register 1-5': 126}",
            "{'coil 1-5': 8}",
            "{'holding-register': 8}",
            "{'holding-register x': 8}",
            "{'name': 1}");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    static List<Key> keys() {
        return new SchemaKeys().keys();
    }

    static Stream<Key> keysWithDefaults() {
        return keys().stream().filter(key -> key.schema().has("default"));
    }

    static Set<String> mappings() {
        return new SchemaKeys().known().keySet();
    }

    static List<Path> examples() throws IOException {
        try (Stream<Path> all = Files.walk(Path.of("examples"))) {
            return all.filter(path -> path.endsWith("site.yaml")).toList();
        }
    }

    @ParameterizedTest
    @MethodSource("examples")
    void theExamplesAreAsTheSchemaSays(Path site) throws IOException {
        assertThat(WholeSite.objections(Files.readString(site))).isEmpty();
    }

    @Test
    void theSchemaIsOneOfTheDraftThatItNames() {
        assertThat(WholeSite.objectionsToTheSchema(SiteSchema.text())).isEmpty();
        String spoilt = SiteSchema.text().replace("\"maxItems\": 0", "\"maxItems\": \"none\"");
        assertThat(WholeSite.objectionsToTheSchema(spoilt)).isNotEmpty();
    }

    @Test
    void theSiteThatTheOthersChangeIsFine() {
        assertThat(WholeSite.objections(WholeSite.TEXT)).isEmpty();
        assertThat(new WholeSite(folder).errors(WholeSite.TEXT)).isEmpty();
    }

    @ParameterizedTest(name = "[{index}] {0}")
    @MethodSource("mappings")
    void theLoaderKnowsTheKeysOfTheSchemaAndNoOthers(String path) {
        String spoilt = WholeSite.with(path.isEmpty() ? "unheard-of" : path + ".unheard-of", "1");
        Matcher said = KNOWN.matcher(String.join("\n", new WholeSite(folder).errors(spoilt)));
        assertThat(said.find()).isTrue();
        assertThat(new TreeSet<>(List.of(said.group(1).split(", "))))
                .isEqualTo(new SchemaKeys().known().get(path));
        assertThat(WholeSite.objections(spoilt)).isNotEmpty();
    }

    @ParameterizedTest
    @MethodSource("keysWithDefaults")
    void aDefaultIsWhatTheLoaderTakesWhereTheKeyIsAbsent(Key key) {
        WholeSite site = new WholeSite(folder);
        String written = WholeSite.with(key.path(), key.schema().get("default").toString());
        assertThat(site.load(written).site().orElseThrow())
                .usingRecursiveComparison()
                .isEqualTo(site.load(WholeSite.TEXT).site().orElseThrow());
    }

    @ParameterizedTest
    @MethodSource("keys")
    void everyKeyIsExplained(Key key) {
        assertThat(key.schema().has("title")).isTrue();
    }

    @ParameterizedTest
    @MethodSource("keys")
    void bothTakeAndRefuseTheSameValues(Key key) {
        WholeSite site = new WholeSite(folder);
        List<String> differing = new ArrayList<>();
        for (String value : VALUES) {
            String yaml = WholeSite.with(key.path(), value.replace('\'', '"'));
            boolean loader = site.errors(yaml).isEmpty();
            boolean schema = WholeSite.objections(yaml).isEmpty();
            if (LOADER_KNOWS_MORE.contains(key.path()) ? loader && !schema : loader != schema) {
                differing.add(value + (loader ? " is refused by the schema only" : " is refused by the loader only"));
            }
        }
        assertThat(differing).isEmpty();
    }

    /** What takes several keys to go wrong, or the way in which YAML is written. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "no  # {tcp: {host: 127.0.0.1}} # {reply-timeout: 1 s}",
                "no  # {tcp: {host: 127.0.0.1}} # {tcp: {host: a}, rtu-over-tcp: {host: a, port: 1}}",
                "no  # {tcp: {host: 127.0.0.1}} # {tcp: {host: a}, serial: {port: /dev/b}}",
                "no  # {tcp: {host: 127.0.0.1}} # {tcp: {}}",
                "no  # {tcp: {host: 127.0.0.1}} # {tcp: }",
                "no  # {tcp: {host: 127.0.0.1}} # ",
                "yes # {tcp: {host: 127.0.0.1}} # {tcp: {host: 7}, reply-timeout: 20ms, connect-timeout: 1 min}",
                "no  # {port: /dev/a} # {port: /dev/a, parity: none}",
                "yes # {port: /dev/a} # {port: /dev/a, parity: none, stop-bits: 1}",
                "yes # {port: /dev/a} # {port: /dev/a, parity: odd, echo: true, rs485: rts-high}",
                "no  # {port: /dev/a} # {port: /dev/a, echo: yes}",
                "no  # {port: /dev/a} # {baud: 9600}",
                "no  # port: 4001 # baud: 9600",
                "no  # unit: 1 # unit: 0x1",
                "no  # unit: 1 # unit: ~",
                "yes # unit: 1 # unit: '001'",
                "no  # , unit: 1 # ''",
                "no  # boiler-1: # Boiler-1:",
                "no  # boiler-1: # events:",
                "yes # boiler-1: # 1:",
                "no  # 'boiler-1: {line: annex, unit: 1, type: hot-water}\n  boiler-2:' # '- boiler-2:'",
                "yes # numbering: data-model # numbering: prefixed, max-registers: {default: 9, holding-register 40001-40009: 5}",
                "no  # numbering: data-model # numbering: prefixed, max-registers: {holding-register 1-9: 5}",
                "no  # numbering: data-model # numbering: prefixed, max-registers: {holding-register 30001-30009: 5}",
                "no  # numbering: data-model # numbering: prefixed, max-registers: {input-register 0x10: 5}",
                "yes # numbering: data-model # numbering: wire, max-registers: {input-register 0: 5}",
                "no  # points: points/hot-water.csv, # ''",
                "no  # , numbering: data-model # ''",
                "no  # , root: plant # ''",
                "no  # ['tcp://127.0.0.1:1883'] # []",
                "no  # '{certificate: /a, key: /b}' # '{certificate: /a}'",
                "no  # '{certificate: /a, key: /b}' # '{ca: /c, key: /b}'",
                "yes # '{certificate: /a, key: /b}' # '{ca: /c}'",
                "yes # '{certificate: /a, key: /b}' # '{}'",
                "yes # 'web: {}' # ''",
                "no  # 'web: {}' # 'web: '",
                "yes # 'web: {}' # 'web: {bind: 127.1.2.3, port: 1}'",
                "no  # 'web: {}' # 'web: {bind: 192.0.2.10}'",
                "no  # 'web: {}' # 'web: {bind: \"::\"}'",
                "yes # 'web: {}' # 'web: {bind: 0.0.0.0, token: environment}'",
                "yes # 'web: {}' # 'web: {bind: \"2001:db8::1\", token-file: /run/secrets/web}'",
                "yes # 'web: {}' # 'web: {token-file: /run/secrets/web}'",
                "no  # 'web: {}' # 'web: {token: environment, token-file: /run/secrets/web}'",
                "no  # 'web: {}' # 'web: {bind: localhost}'",
                "no  # 'web: {}' # 'web: {token: x}'",
                "no  # 'device-instance: 711001,' # ''",
                "no  # , bind: 127.0.0.1 # ''",
                "no  # site: quillmere # description: nothing else",
                "no  # time-zone: Europe/Lisbon # description: nothing else",
                "yes # site: quillmere # 'site: 1900'",
                "no  # write-permits: # write-permit:",
                "no  # write-permits: # 'write-permits: 1\nother:'",
                "no  # point: boiler-2.load, # ''",
                "no  # point: boiler-2.load # point: boiler-2",
                "no  # 'from: {bacnet: [192.0.2.9]}, ' # ''",
                "no  # bacnet: [192.0.2.9] # bacnet: []",
                "no  # bacnet: [192.0.2.9] # mqtt: false",
                "yes # bacnet: [192.0.2.9] # mqtt: true",
                "yes # bacnet: [192.0.2.9] # bacnet: [], mqtt: true",
                "yes # bacnet: [192.0.2.9] # bacnet: [192.0.2.0/24, 198.51.100.7]",
                "no  # bacnet: [192.0.2.9] # bacnet: [192.0.2.256]",
                "no  # bacnet: [192.0.2.9] # bacnet: [192.0.2.0/33]",
                "no  # range: 20..90, # ''",
                "no  # range: 20..90 # range: 20..90, states: [1]",
                "yes # range: 20..90 # range: 20..90, step: 10",
                "yes # range: 20..90 # range: 10.5 .. 90",
                "no  # range: 20..90 # range: 20-90",
                "no  # states: [0, 1] # states: [0, 1], step: 1",
                "no  # states: [0, 1] # states: []",
                "yes # states: [0, 1] # states: ['0', '1']",
                "no  # interval: 1 h, # ''",
                "no  # lifetime-writes: 100000, # ''",
                "no  # lifetime-writes: 100000 # storage: non-volatile",
                "yes # lifetime-writes: 100000 # storage: volatile",
                "no  # lifetime-writes: 100000 # storage: volatile, lifetime-writes: 1",
                "no  # function: 6, # ''",
                "no  # function: 6 # function: 23",
                "no  # silence-after: 15 min, # ''",
                "no  # on-silence: write 20, # ''",
                "no  # on-silence: write 20 # on-silence: write",
                "no  # ', reason: summer' # ''",
                "no  # every: 10 s, # ''",
                "no  # pattern: toggle, # ''",
                "yes # pattern: toggle # pattern: count to 65535",
                "no  # pattern: toggle # pattern: count to 0",
                "no  # pattern: toggle # pattern: toggle, interval: 1 h",
                "no  # pattern: toggle # 'pattern: toggle, from: {mqtt: true}'",
                "no  # 'reason: minds us' # ''"
            })
    void bothTakeAndRefuseTheSameTexts(String fine, String from, @Nullable String to) {
        assertThat(WholeSite.TEXT).contains(from);
        String yaml = WholeSite.TEXT.replace(from, to == null ? "" : to);
        assertThat(WholeSite.objections(yaml).isEmpty()).as("schema: %s", yaml).isEqualTo(fine.equals("yes"));
        assertThat(new WholeSite(folder).errors(yaml).isEmpty())
                .as("loader: %s", yaml)
                .isEqualTo(fine.equals("yes"));
    }

    @ParameterizedTest
    @CsvSource({"lines", "types", "controllers", "mqtt", "bacnet", "web", "site"})
    void bothSayWhatMayBeAbsent(String key) {
        String yaml = WholeSite.TEXT.replaceAll("(?m)^" + key + ":.*\n( .*\n)*", "");
        assertThat(yaml).isNotEqualTo(WholeSite.TEXT);
        assertThat(WholeSite.objections(yaml).isEmpty())
                .isEqualTo(new WholeSite(folder).errors(yaml).isEmpty());
    }
}
