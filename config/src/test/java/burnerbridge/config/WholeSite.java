package burnerbridge.config;

import static burnerbridge.config.SchemaKeys.ITEM;
import static burnerbridge.config.SchemaKeys.NAME;

import burnerbridge.config.problem.Problem;
import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;
import tools.jackson.databind.node.ObjectNode;

/** A site with each kind of line and only what is required, for tests to change by the paths of the schema. */
final class WholeSite {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Schema SCHEMA = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SiteSchema.text(), InputFormat.JSON);

    static final String TEXT = """
            site: quillmere
            time-zone: Europe/Lisbon
            lines:
              annex: {tcp: {host: 127.0.0.1}}
              house: {rtu-over-tcp: {host: 127.0.0.2, port: 4001}}
              cellar: {serial: {port: /dev/a}}
            types:
              hot-water: {points: points/hot-water.csv, numbering: data-model}
              outside: {points: points/outside.csv, numbering: wire, tables: separate, identity: serial, protected: [coil 9]}
            controllers:
              boiler-1: {line: annex, unit: 1, type: hot-water}
              boiler-2: {line: house, unit: 2, type: outside}
            bacnet: {device-instance: 711001, bind: 127.0.0.1, foreign-device: {host: 192.0.2.9}}
            mqtt: {brokers: ['tcp://127.0.0.1:1883'], root: plant, tls: {certificate: /a, key: /b}}
            web: {}
            write-permits:
              - {point: boiler-2.load, from: {bacnet: [192.0.2.9]}, range: 20..90, interval: 1 h, lifetime-writes: 100000,
                 function: 6, silence-after: 15 min, on-silence: write 20, reason: summer}
              - {point: boiler-2.watched, every: 10 s, pattern: toggle, storage: volatile, function: 16, reason: minds us}
              - {point: boiler-2.run, from: {mqtt: true}, states: [0, 1], interval: 1 min, storage: volatile,
                 function: 5, silence-after: 1 h, on-silence: write 0, reason: the season}
            """;

    private static final Map<String, String> NAMES = Map.of("types", "hot-water", "controllers", "boiler-1");
    /** Which permit of the list has a key; the others are in the first. */
    private static final Map<String, Integer> PERMITS = Map.of("every", 1, "pattern", 1, "states", 2);

    private static final Map<String, String> LINES = Map.of("rtu-over-tcp", "house", "serial", "cellar");

    private final SiteFiles files;

    WholeSite(Path folder) {
        files = new SiteFiles(folder).write("points/hot-water.csv", """
                        name,table,address,format,role,stale-after,on-read
                        water-temperature,input-register,1,int16,measurement,168 h,
                        latch,input-register,2,int16,status,168 h,clears
                        """).write("points/outside.csv", """
                        name,table,address,format,role,stale-after,source
                        load,holding-register,20,uint16,demand,168 h,p. 1
                        watched,holding-register,21,uint16,heartbeat,168 h,p. 1
                        run,coil,1,bit,enable,168 h,p. 1
                        serial,holding-register,30,text:4,identity,168 h,p. 2
                        """);
    }

    /** What the schema objects to; the text is parsed as the loader does it. */
    static List<Error> objections(String yaml) {
        Object parsed = new Load(LoadSettings.builder().build()).loadFromString(yaml);
        return SCHEMA.validate(JSON.<JsonNode>valueToTree(parsed));
    }

    /** What the draft itself objects to in a schema. */
    static List<Error> objectionsToTheSchema(String schema) {
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"))
                .validate(schema, InputFormat.JSON);
    }

    SiteFolder load(String yaml) {
        return files.write("site.yaml", yaml).load();
    }

    /** What the loader objects to in {@code site.yaml} alone. */
    List<String> errors(String yaml) {
        return load(yaml).problems().stream()
                .filter(Problem::isError)
                .map(Problem::toString)
                .filter(text -> text.startsWith("site.yaml"))
                .toList();
    }

    /** The site with one key set, as JSON, which is YAML too. */
    static String with(String path, String json) {
        JsonNode site = JSON.valueToTree(new Load(LoadSettings.builder().build()).loadFromString(TEXT));
        JsonNode at = site;
        List<String> words = Arrays.asList(path.split("\\."));
        for (int i = 0; i < words.size() - 1; i++) {
            at = words.get(i).equals(ITEM)
                    ? at.get(PERMITS.getOrDefault(words.get(i + 1), 0))
                    : at.get(words.get(i).equals(NAME) ? name(words, i) : words.get(i));
        }
        ((ObjectNode) at).set(words.get(words.size() - 1), JSON.readTree(json));
        return JSON.writeValueAsString(site);
    }

    private static String name(List<String> words, int at) {
        return words.get(0).equals("lines")
                ? LINES.getOrDefault(words.get(at + 1), "annex")
                : NAMES.getOrDefault(words.get(0), "");
    }
}
