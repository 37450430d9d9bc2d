package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.QuillmereWithPermits;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** {@code check --json} as a program reads it, with a parser that is none of ours. */
class CheckJsonTest {
    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS, DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private static final String SITE = """
            site: quillmere
            description: an "invented" grower
            time-zone: Europe/Lisbon
            units: imperial
            lines:
              annex: {tcp: {host: 127.0.0.1, port: 1502}}
            types:
              hot-water: {points: points.csv, numbering: prefixed, tables: mirror, identity: serial,
                  watchdog: 30 s, readable: [holding-register 40012-40020], protected: [holding-register 40300-40310]}
            controllers:
              boiler-1: {line: annex, unit: 1, type: hot-water, instance-base: 1000}
              boiler-2: {line: annex, unit: 7, type: hot-water, instance-base: 2000, address-offset: 500, reply-unit: any}
            groups: {plant: [boiler-1, boiler-2]}
            bacnet: {device-instance: 711001, bind: 127.0.0.1}
            mqtt: {brokers: ['tcp://127.0.0.1:1883'], root: plant}
            web: {bind: '::1', token: environment}
            """;

    private static final String POINTS = """
            name,description,table,address,format,scale,offset,unit,basis,role,valid,states,object,means,when,alarm
            flue-temperature,Flue gas,input-register,30003,uint16,0.1,-50,°C,,measurement,-50..400,,,flue-temperature,phase=purge,high when=>300 delay=30 s deadband=5
            gas-pressure,Gas,holding-register,40010,int16,0.1,,mbar,gauge,measurement,,,,,,
            flame,A flame is seen,discrete-input,10001,bit,,,,,status,,0=no|1=yes,,flame,,
            phase,Sequence,holding-register,40005,uint16,,,,,status,,0=standby|12=purge,,phase,,off-normal when=purge
            starts,Starts,holding-register,40120+40187,uint32,,,,,counter,,,,,,
            serial,Serial number,holding-register,40200,text:8,,,,,identity,,,,,,
            reset,,coil,00012,bit,,,,,lockout-reset,,,,,,
            hidden,,coil,00013,bit,,,,,status,,,none,lockout,,
            ready,,coil,00014,bit,,,,,status,,,none,available,,
            """;

    private final StringWriter out = new StringWriter();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @BeforeEach
    void write() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE);
        Files.writeString(folder.resolve("points.csv"), POINTS);
    }

    private int execute(String... arguments) {
        out.getBuffer().setLength(0);
        CommandLine commandLine = Main.commandLine();
        commandLine.setOut(new PrintWriter(out, true));
        return commandLine.execute(arguments);
    }

    private JsonNode json(int expectedExit, String... more) {
        String[] arguments = new String[more.length + 3];
        arguments[0] = "check";
        arguments[1] = folder.toString();
        arguments[2] = "--json";
        System.arraycopy(more, 0, arguments, 3, more.length);
        assertThat(execute(arguments)).isEqualTo(expectedExit);
        return MAPPER.readTree(out.toString());
    }

    private static JsonNode point(JsonNode json, String id) {
        return json.get("points")
                .valueStream()
                .filter(point -> point.get("id").asString().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private static JsonNode problem(JsonNode json, String severity) {
        return json.get("problems")
                .valueStream()
                .filter(problem -> problem.get("severity").asString().equals(severity))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theTopicsOfTheBridgeAndOfEachControllerAsAWholeAreListed() {
        JsonNode mqtt = json(ExitCode.FINE, "--bind").get("mqtt");
        assertThat(mqtt.get("client-id").asString()).isEqualTo("burner-bridge-quillmere");
        assertThat(mqtt.get("version").asString()).isEqualTo("5");
        assertThat(mqtt.get("topics")
                        .valueStream()
                        .map(topic -> topic.get("topic").asString() + " " + topic.get("retained")))
                .contains(
                        "plant/quillmere/_self/link true",
                        "plant/quillmere/_self/about true",
                        "plant/quillmere/_self/events false",
                        "plant/quillmere/boiler-2/about true",
                        "plant/quillmere/plant/link true")
                .hasSize(12);
    }

    @Test
    void aPointHasBothAddressesBothUnitsItsObjectAndItsTopic() {
        JsonNode point = point(json(ExitCode.FINE, "--bind"), "boiler-2.flue-temperature");
        assertThat(point.get("address").asString()).isEqualTo("30003");
        assertThat(point.get("wire-address").asInt()).isEqualTo(502);
        assertThat(point.get("table").asString()).isEqualTo("input-register");
        // The tables are mirrored, so that the read is one of holding registers.
        assertThat(point.get("function").asInt()).isEqualTo(3);
        assertThat(point.get("unit").asString()).isEqualTo("°C");
        assertThat(point.get("shown-unit").asString()).isEqualTo("°F");
        assertThat(point.get("object").asString()).isEqualTo("analog-input");
        assertThat(point.get("instance").asInt()).isBetween(2001, 2008);
        assertThat(point.get("no-object-because").isNull()).isTrue();
        assertThat(point.get("topic").asString()).isEqualTo("plant/quillmere/boiler-2/flue-temperature");
        assertThat(point.get("every-ms").asInt()).isEqualTo(2000);
        assertThat(point.get("file").asString()).isEqualTo("points.csv");
        assertThat(point.get("line").asInt()).isEqualTo(2);
        assertThat(point.get("role").asString()).isEqualTo("measurement");
    }

    @Test
    void theValueFollowsFromTheRawNumberWithoutRounding() {
        JsonNode value = point(json(ExitCode.FINE, "--bind"), "boiler-1.flue-temperature")
                .get("value");
        BigDecimal raw = new BigDecimal("2500");
        BigDecimal shown = raw.multiply(value.get("times").decimalValue())
                .add(value.get("plus").decimalValue())
                .divide(value.get("divided-by").decimalValue());
        // 2500 tenths above -50 °C are 200 °C, 392 °F.
        assertThat(shown).isEqualByComparingTo("392");
        JsonNode valid = point(json(ExitCode.FINE), "boiler-1.flue-temperature").get("valid");
        assertThat(valid.get(0).decimalValue()).isEqualByComparingTo("-58");
        assertThat(valid.get(1).decimalValue()).isEqualByComparingTo("752");
    }

    @Test
    void whatAPointTellsAndWhenAndItsAlarmAreThere() {
        JsonNode json = json(ExitCode.FINE, "--bind");
        JsonNode flue = point(json, "boiler-1.flue-temperature");
        assertThat(flue.get("means").asString()).isEqualTo("flue-temperature");
        assertThat(flue.get("when").toString()).isEqualTo("{\"point\":\"phase\",\"in-states\":[12]}");
        JsonNode alarm = flue.get("alarm");
        assertThat(alarm.get("kind").asString()).isEqualTo("high");
        assertThat(alarm.get("delay-ms").asInt()).isEqualTo(30_000);
        // 300 °C and a difference of 5 °C, as they are shown.
        assertThat(alarm.get("limit").decimalValue()).isEqualByComparingTo("572");
        assertThat(alarm.get("deadband").decimalValue()).isEqualByComparingTo("9");
        assertThat(alarm.get("in-states").isNull()).isTrue();
        assertThat(point(json, "boiler-2.phase").get("alarm").get("in-states").toString())
                .isEqualTo("[12]");
        assertThat(point(json, "boiler-1.hidden").get("alarm").isNull()).isTrue();
        execute("check", folder.toString());
        assertThat(out.toString())
                .contains("Alarms: kept for a later version; this one tells none")
                .containsPattern("boiler-1.flue-temperature +high when > 572, deadband 9 °F +30 s")
                .containsPattern("boiler-1.flue-temperature +flue-temperature +phase=12");
    }

    @Test
    void whatIsSaidOfTheTypeIsThereForEachController() {
        JsonNode controller = json(ExitCode.FINE, "--bind").get("controllers").get(0);
        assertThat(controller.get("identity").asString()).isEqualTo("serial");
        assertThat(controller.get("watchdog-ms").asInt()).isEqualTo(30_000);
        assertThat(controller.get("readable").get(0).toString())
                .isEqualTo("{\"written\":\"holding-register 40012-40020\",\"table\":\"holding-register\","
                        + "\"first-wire\":11,\"last-wire\":19}");
        execute("check", folder.toString());
        assertThat(out.toString())
                .contains("never to be written: holding-register 40300-40310 (wire 299..309)")
                .contains("may be read across: holding-register 40012-40020 (wire 11..19)")
                .contains("told from others by serial")
                .contains("lets a demand go after 30 s without a write");
    }

    @Test
    void aGroupHasPointsThatNobodyReads() {
        JsonNode json = json(ExitCode.FINE, "--bind");
        assertThat(json.get("groups").toString())
                .isEqualTo("[{\"name\":\"plant\",\"members\":[\"boiler-1\",\"boiler-2\"]}]");
        JsonNode firing = point(json, "plant.firing");
        assertThat(firing.get("address").isNull()).isTrue();
        assertThat(firing.get("every-ms").isNull()).isTrue();
        assertThat(firing.get("format").asString()).isEqualTo("count");
        assertThat(firing.get("file").asString()).isEqualTo("site.yaml");
        assertThat(firing.get("topic").asString()).isEqualTo("plant/quillmere/plant/firing");
        assertThat(firing.get("object").asString()).isEqualTo("analog-input");
        execute("check", folder.toString());
        assertThat(out.toString())
                .contains("Group plant: boiler-1, boiler-2")
                .containsPattern("analog-input +\\d+ +plant.locked-out")
                .containsPattern("plant/quillmere/plant/<point> +yes +3 points");
    }

    @Test
    void whyAPointHasNoObjectIsSaid() {
        JsonNode json = json(ExitCode.FINE, "--bind");
        assertThat(point(json, "boiler-1.reset").get("no-object-because").asString())
                .isEqualTo("it is never read");
        assertThat(point(json, "boiler-1.hidden").get("no-object-because").asString())
                .isEqualTo("its row says none");
        assertThat(point(json, "boiler-1.reset").get("topic").isNull()).isTrue();
        assertThat(point(json, "boiler-1.reset").get("every-ms").isNull()).isTrue();
        assertThat(point(json, "boiler-1.starts").get("wire-address-low-word").asInt())
                .isEqualTo(186);
        assertThat(point(json, "boiler-1.phase").get("states").get("12").asString())
                .isEqualTo("purge");
    }

    @Test
    void whatIsSpecialAboutAControllerIsSaid() {
        JsonNode controllers = json(ExitCode.FINE, "--bind").get("controllers");
        assertThat(controllers.get(1).get("address-offset").asInt()).isEqualTo(500);
        assertThat(controllers.get(1).get("any-reply-unit").booleanValue()).isTrue();
        assertThat(controllers.get(0).get("address-offset").asInt()).isZero();
        assertThat(controllers.get(0).get("any-reply-unit").booleanValue()).isFalse();
    }

    @Test
    void whatAControllerHasOnBacnetBesideItsPointsIsListed() throws IOException {
        JsonNode json = json(ExitCode.FINE, "--bind");
        assertThat(json.get("controllers").get(1).get("objects").toString())
                .isEqualTo("[{\"object\":\"binary-input\",\"instance\":2000,\"object-name\":\"boiler-2.link\"},"
                        + "{\"object\":\"structured-view\",\"instance\":2000,\"object-name\":\"boiler-2\"}]");
        assertThat(json.get("bacnet").get("foreign-device").isNull()).isTrue();
        execute("check", folder.toString());
        assertThat(out.toString())
                .containsPattern("binary-input 1000 +boiler-1.link +answers or not")
                .containsPattern("structured-view 1000 +boiler-1 +all its objects")
                .doesNotContain("foreign device");
        Files.writeString(
                folder.resolve("site.yaml"),
                SITE.replaceFirst("bacnet: \\{", "bacnet: {foreign-device: {host: 192.0.2.7, lifetime: 60}, "));
        assertThat(json(ExitCode.FINE).get("bacnet").get("foreign-device").toString())
                .isEqualTo("{\"host\":\"192.0.2.7\",\"port\":47808,\"lifetime-s\":60}");
        execute("check", folder.toString());
        assertThat(out.toString()).contains("registers as a foreign device with 192.0.2.7:47808 for 60 s at a time");
    }

    @Test
    void theLanguageOfTheTextsIsSaid() throws IOException {
        assertThat(json(ExitCode.FINE, "--bind").get("site").get("language").isNull())
                .isTrue();
        Files.writeString(folder.resolve("site.yaml"), SITE + "language: pt\n");
        Files.writeString(
                folder.resolve("points.csv"),
                POINTS.replace(",alarm\n", ",alarm,text.pt\n").replace(",flame,,\n", ",flame,,,Chama\n"));
        JsonNode json = json(ExitCode.FINE);
        assertThat(json.get("site").get("language").asString()).isEqualTo("pt");
        assertThat(point(json, "boiler-1.flame").get("description").asString()).isEqualTo("Chama");
        assertThat(point(json, "boiler-1.phase").get("description").asString()).isEqualTo("Sequence");
    }

    @Test
    void withoutBindingsThePointsSaySoAndTheExitCodeIsThatOfTheText() {
        JsonNode json = json(ExitCode.WARNINGS);
        assertThat(json.get("starts").booleanValue()).isTrue();
        assertThat(point(json, "boiler-1.flame").get("no-object-because").asString())
                .isEqualTo("it has no binding");
        assertThat(problem(json, "warning").get("message").asString()).contains("no binding");
        assertThat(execute("check", folder.toString())).isEqualTo(ExitCode.WARNINGS);
    }

    @Test
    void aSiteWithErrorsHasItsProblemsAndNothingElse() throws IOException {
        Files.writeString(folder.resolve("points.csv"), POINTS.replace("flame,", "Flame,"));
        JsonNode json = json(ExitCode.BAD_INPUT);
        assertThat(json.get("starts").booleanValue()).isFalse();
        JsonNode problem = problem(json, "error");
        assertThat(problem.get("file").asString()).isEqualTo("points.csv");
        assertThat(problem.get("line").asInt()).isEqualTo(4);
        assertThat(problem.get("column").asInt()).isEqualTo(1);
        assertThat(problem.get("message").asString()).startsWith("name: a name is lower-case words");
        assertThat(json.get("site").isNull()).isTrue();
        assertThat(json.get("points").size()).isZero();
        assertThat(json.get("writable").size()).isZero();
        assertThat(json.get("writable-note").asString())
                .isEqualTo("nothing is writable: the bridge does not start on this site");
    }

    private JsonNode permitted() throws IOException {
        folder = folder.resolve("permitted");
        QuillmereWithPermits.writeTo(folder);
        return json(ExitCode.FINE);
    }

    private static JsonNode permit(JsonNode json, String id) {
        return json.get("writable")
                .valueStream()
                .filter(permit -> permit.get("point").asString().equals(id))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void whatWouldBeWritableIsListedWithAddressValuesAndAskers() throws IOException {
        JsonNode json = permitted();
        assertThat(json.get("writable").size()).isEqualTo(5);
        assertThat(json.get("writable-note").asString())
                .isEqualTo("nothing of it is writable until a person has approved it on the box, with burner-bridge"
                        + " permits SITE");
        assertThat(json.get("caution").asString()).contains("not a safety device");
        assertThat(permit(json, "boiler-1.load-limit").toString())
                .isEqualTo("{\"point\":\"boiler-1.load-limit\",\"role\":\"demand\",\"file\":\"points/hot-water.csv\","
                        + "\"line\":13,\"source\":\"sheet 8\",\"on-line\":\"boiler-house\",\"unit\":1,"
                        + "\"table\":\"holding-register\",\"address\":\"45\",\"wire-address\":44,\"addresses\":1,"
                        + "\"format\":\"uint16\",\"function\":6,\"shown-unit\":\"%\",\"range\":[20,90],"
                        + "\"states\":null,\"step\":10,\"interval-ms\":60000,\"storage\":\"volatile\","
                        + "\"lifetime-writes\":null,\"bacnet\":[\"127.0.0.0/8\"],\"mqtt\":true,"
                        + "\"mqtt-priority\":12,\"silence-after-ms\":900000,"
                        + "\"on-silence\":{\"action\":\"write\",\"value\":20},\"every-ms\":null,\"pattern\":null,"
                        + "\"reason\":\"the plant's optimiser limits the load in summer\"}");
        JsonNode enable = permit(json, "boiler-2.remote-enable");
        assertThat(enable.get("states").toString()).isEqualTo("[0,1]");
        assertThat(enable.get("range").isNull()).isTrue();
        assertThat(enable.get("wire-address").asInt()).isEqualTo(64);
        assertThat(enable.get("mqtt").booleanValue()).isFalse();
        assertThat(enable.get("mqtt-priority").isNull()).isTrue();
        JsonNode wearing = permit(json, "boiler-2.load-limit");
        assertThat(wearing.get("storage").asString()).isEqualTo("non-volatile");
        assertThat(wearing.get("lifetime-writes").asInt()).isEqualTo(100_000);
    }

    @Test
    void theTextListsWhatWouldBeWritableWithTheWholeCaution() throws IOException {
        permitted();
        assertThat(execute("check", folder.toString())).isEqualTo(ExitCode.FINE);
        assertThat(out.toString().lines().map(line -> line.strip().replaceAll(" +", " ")))
                .containsSubsequence(
                        "Writable: 5 points, and nothing else. None of it until a person has approved",
                        "it on the box: burner-bridge permits " + folder,
                        "boiler-1.load-limit",
                        "row line 13 of points/hot-water.csv; in the manual: sheet 8",
                        "address holding-register 45 (wire 44), unit 1 of line boiler-house",
                        "function 6",
                        "values 20..90 %",
                        "step at most 10 % a write",
                        "interval at least 1 min between two writes",
                        "asked by BACnet from 127.0.0.0/8; MQTT at priority 12",
                        "silence after 15 min: write 20 %",
                        "memory volatile, takes any number of writes",
                        "reason the plant's optimiser limits the load in summer",
                        "boiler-1.remote-enable",
                        "address coil 17 (wire 16), unit 1 of line boiler-house",
                        "values 0 held, 1 released",
                        "silence after 15 min: write 0 held",
                        "boiler-2.load-limit",
                        "memory non-volatile, 100,000 writes: 1.9 years at one in 10 min",
                        "steam-1.load-limit",
                        "values 25.5..100 %")
                .containsSubsequence(Caution.FULL);
        assertThat(out.toString().lines().dropWhile(line -> !line.startsWith("Writable:")))
                .filteredOn(line -> !line.contains(folder.toString()))
                .allSatisfy(line -> assertThat(line.length()).as(line).isLessThanOrEqualTo(80));
    }

    @Test
    void nothingIsWritableAndTheCautionStandsBesideIt() {
        JsonNode json = json(ExitCode.FINE, "--bind");
        assertThat(json.get("writable").isArray()).isTrue();
        assertThat(json.get("writable").size()).isZero();
        assertThat(json.get("writable-note").asString()).isEqualTo("nothing is writable: no permit is in site.yaml");
        assertThat(json.get("caution").asString()).contains("not a safety device");
        assertThat(json.get("changes").size()).isEqualTo(6 + 3);
    }

    @Test
    void theTextTellsTheSameFacts() {
        JsonNode json = json(ExitCode.FINE, "--bind");
        assertThat(execute("check", folder.toString())).isEqualTo(ExitCode.FINE);
        String text = out.toString();
        for (JsonNode point : json.get("points")) {
            if (point.get("table").isNull()) {
                continue;
            }
            String name = point.get("name").asString();
            String wire = "(wire " + point.get("wire-address").asInt();
            assertThat(text)
                    .containsPattern(name + "\\s+" + point.get("table").asString() + " "
                            + Pattern.quote(point.get("address").asString() + " " + wire));
            String id = Pattern.quote(point.get("id").asString());
            if (point.get("object").isNull()) {
                String why = point.get("no-object-because").asString();
                assertThat(text).containsPattern(id + " +" + Pattern.quote(why));
            } else {
                String object = point.get("object").asString() + " "
                        + point.get("instance").asInt();
                assertThat(text).containsPattern(Pattern.quote(object) + " +" + id);
            }
        }
        for (JsonNode controller : json.get("controllers")) {
            assertThat(text)
                    .contains("Controller " + controller.get("name").asString() + ": line "
                            + controller.get("line").asString() + ", unit "
                            + controller.get("unit").asInt());
        }
        assertThat(text).contains("Topics: plant/quillmere/<controller>/<point>");
        assertThat(text).contains("Web: [::1]:9311, /health and /metrics, with a token");
        JsonNode web = json.get("web");
        assertThat(web.get("bind").asString()).isEqualTo("::1");
        assertThat(web.get("port").asInt()).isEqualTo(9311);
        assertThat(web.get("token").asBoolean()).isTrue();
    }

    @Test
    void theSummaryFitsEightyColumns() {
        execute("check", folder.toString(), "--bind");
        assertThat(out.toString().lines().dropWhile(line -> !line.startsWith("Site quillmere")))
                .isNotEmpty()
                .allSatisfy(line -> assertThat(line.length()).as(line).isLessThanOrEqualTo(80));
    }

    @Test
    void everyMemberIsDocumentedAndEveryDocumentedMemberIsThere() throws IOException {
        JsonNode json = json(ExitCode.WARNINGS);
        String page = Files.readString(Path.of("..", "docs", "check-json.md"));
        Set<String> documented = new TreeSet<>();
        Matcher member =
                Pattern.compile("(?m)^\\| `([a-z-]+)`(?:, `([a-z-]+)`)? \\|").matcher(page);
        while (member.find()) {
            documented.add(member.group(1));
            if (member.group(2) != null) {
                documented.add(member.group(2));
            }
        }
        Set<String> found = new TreeSet<>(json.propertyNames());
        for (String list : List.of("problems", "lines", "controllers", "groups", "points")) {
            found.addAll(json.get(list).get(0).propertyNames());
        }
        found.addAll(json.get("lines").get(0).get("foretold").propertyNames());
        found.addAll(json.get("controllers").get(0).get("readable").get(0).propertyNames());
        for (String object : List.of("site", "bacnet", "mqtt", "web")) {
            found.addAll(json.get(object).propertyNames());
        }
        found.addAll(json.get("mqtt").get("topics").get(0).propertyNames());
        JsonNode permit = permit(permitted(), "boiler-1.load-limit");
        found.addAll(permit.propertyNames());
        assertThat(page).contains("an object with `action`, `write` or `release`, and `value`");
        assertThat(permit.get("on-silence").propertyNames()).containsExactly("action", "value");
        for (String object : List.of("value", "when", "alarm")) {
            found.addAll(point(json, "boiler-1.flue-temperature").get(object).propertyNames());
        }
        assertThat(documented).isEqualTo(found);
    }
}
