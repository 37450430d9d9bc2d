package burnerbridge.mqtt.documents;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.BitValue;
import burnerbridge.model.DateTimeValue;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.model.StateValue;
import burnerbridge.model.TextValue;
import burnerbridge.model.Value;
import burnerbridge.mqtt.TestPlant;
import burnerbridge.mqtt.payload.EventPayload;
import burnerbridge.mqtt.payload.PermitPayload;
import burnerbridge.mqtt.payload.ReplyPayload;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.mqtt.topic.Teller;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Scaling;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import burnerbridge.table.ValueTable;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.WriteEvent;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Source;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The documents before programs that others wrote: AsyncAPI's parser and Python's jsonschema. */
class MqttDocumentsIT {
    private static final Path OUTSIDE = Path.of(System.getProperty("outside.folder", "../outside"));
    private static final MqttSettings SETTINGS = TestPlant.settings("tcp://127.0.0.1:1883", "tls://192.0.2.5:8883");
    private static final States PHASES = new States(Map.of(0L, "standby", 3L, "a \"b\" #+/ \u0436 \u0001", 9L, "run"));
    private static final Registers RAW = Registers.of(0x42F6, 0xE979);

    private final HandClock clock = new HandClock();
    private final Site site = TestPlant.site(
            2,
            TestPlant.point(
                    "real",
                    PointFormat.UINT16,
                    new Scaling(new BigDecimal("0.1"), BigDecimal.ZERO),
                    Unit.of("%"),
                    States.NONE),
            TestPlant.point(
                    "count",
                    new PointFormat.Whole(64, false, WordOrder.HIGH_WORD_FIRST),
                    Scaling.NONE,
                    Unit.NONE,
                    States.NONE),
            TestPlant.point("phase", PointFormat.UINT16, Scaling.NONE, Unit.NONE, PHASES),
            TestPlant.point("flame", new PointFormat.Bit(), Scaling.NONE, Unit.NONE, States.NONE),
            TestPlant.point("valve", new PointFormat.Bit(), Scaling.NONE, Unit.NONE, new States(Map.of(1L, "open"))),
            TestPlant.point(
                    "serial", new PointFormat.Text(4, WordOrder.HIGH_WORD_FIRST), Scaling.NONE, Unit.NONE, States.NONE),
            TestPlant.point(
                    "clock-time",
                    new PointFormat.Epoch32(WordOrder.HIGH_WORD_FIRST, ZoneOffset.UTC),
                    Scaling.NONE,
                    Unit.NONE,
                    States.NONE));
    private final ValueTable table = TestPlant.table(site);
    private final SiteTopics topics = new SiteTopics(SETTINGS, site, table, "start-1", clock.now());

    @TempDir
    Path folder;

    @Test
    void theDescriptionOfTheTopicsIsAcceptedByTheParserOfItsMakers() throws Exception {
        String said = parsed(document(MqttDocuments.TOPICS), 0);

        assertThat(said)
                .contains("channel plant/heat/quillmere/_self/link\n")
                .contains("channel plant/heat/quillmere/{controller}/events\n")
                .contains("channel plant/heat/quillmere/{controller}/clock-time\n")
                .contains("send send.point.burner.phase\n");
        assertThat(said.lines().filter(line -> line.startsWith("channel"))).hasSize(13);
    }

    @Test
    void andThatParserRefusesWhatIsWrong() throws Exception {
        String broken = document(MqttDocuments.TOPICS).replace("#/channels/point.burner.phase", "#/channels/nothing");

        assertThat(parsed(broken, 1)).contains("nothing");
    }

    @Test
    void everyKindOfMessageMatchesTheSchema() throws Exception {
        List<String> lines = new ArrayList<>();
        Map<Integer, Value> values = values();
        for (SitePoint point : site.points()) {
            tell(lines, point, Reading.notReadYet());
            Value value = Objects.requireNonNull(values.get(point.ordinal() % values.size()));
            Reading good = Reading.good(value, clock.now(), RAW);
            tell(lines, point, good);
            tell(lines, point, good.staled(Reason.LINE_DOWN));
            tell(lines, point, Reading.refused(2, clock.now(), good));
            tell(lines, point, Reading.bad(Reason.NO_SENSOR, clock.now(), RAW, good));
            tell(lines, point, Reading.bad(Reason.OVER_RANGE, clock.now(), RAW, good));
            tell(lines, point, Reading.bad(Reason.NOT_A_NUMBER, clock.now(), RAW, Reading.notReadYet()));
            tell(lines, point, Reading.uncertain(value, Reason.NOT_APPLICABLE, clock.now(), RAW, good));
        }
        clock.believe(false);
        tell(lines, site.points().get(0), Reading.good(new RealValue(0.1, 1), clock.now(), RAW));
        tell(
                lines,
                site.points().get(2),
                Reading.uncertain(
                        new StateValue(77, null), Reason.UNKNOWN_STATE, clock.now(), RAW, Reading.notReadYet()));
        tell(lines, site.points().get(1), Reading.good(IntegerValue.of(12), clock.now(), RAW));
        tellLinks(lines);
        tellOthers(lines);

        String said = validated(lines, 0);

        assertThat(said).isEqualTo("checked " + lines.size() + "\n");
        assertThat(lines).hasSizeGreaterThan(120);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            point.burner.real  | {"value":null,"unit":"%","quality":"good","readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.250Z","validFor":9,"sequence":1}
            point.burner.real  | {"value":"42","unit":"%","quality":"good","readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.250Z","validFor":9,"sequence":1}
            point.burner.real  | {"value":42,"unit":"K","quality":"good","readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.250Z","validFor":9,"sequence":1}
            point.burner.real  | {"value":42,"unit":"%","quality":"good","sentAt":"2026-11-25T08:00:00.250Z","validFor":9,"sequence":1}
            point.burner.real  | {"value":null,"unit":"%","quality":"bad","sentAt":"2026-11-25T08:00:00.250Z","validFor":9,"sequence":1}
            point.burner.real  | {"value":42,"unit":"%","quality":"good","readAt":"2026-11-25 08:00","sentAt":"2026-11-25T08:00:00.250Z","validFor":9,"sequence":1}
            point.burner.real  | {"value":42,"unit":"%","quality":"good","readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.250Z","validFor":0,"sequence":1}
            point.burner.count | {"value":9007199254740993,"quality":"good","readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.250Z","validFor":9,"sequence":1}
            point.burner.phase | {"value":{"number":1,"text":"unheard of"},"quality":"good","readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.250Z","validFor":9,"sequence":1}
            link               | {"state":"perhaps","sentAt":"2026-11-25T08:00:00.250Z","validFor":60,"sequence":1}
            event              | {"event":"started","at":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.250Z"}
            """)
    void aMessageThatIsWrongDoesNot(String definition, String payload) throws Exception {
        assertThat(validated(List.of(definition + "\t" + payload), 1)).startsWith("wrong " + definition);
    }

    @Test
    void whatMayBeAskedForIsDescribedWithTheCautionAndWhatMayNotIsNot() throws Exception {
        String topics = document(SETTINGS, TestPlant.writable(), MqttDocuments.TOPICS);
        String said = parsed(topics, 0);

        assertThat(said)
                .contains("channel plant/heat/quillmere/{controller}/load/ask\n")
                .contains("channel plant/heat/quillmere/{controller}/load/reply\n")
                .contains("channel plant/heat/quillmere/{controller}/load/permit\n")
                .contains("channel plant/heat/quillmere/{controller}/limit/permit\n")
                .contains("receive receive.point.burner.load.ask\n")
                .contains("send send.point.burner.load.permit\n")
                .doesNotContain("limit/ask")
                .doesNotContain("limit/reply");
        assertThat(topics).contains("licensed, competent people");
        assertThat(document(SETTINGS, TestPlant.writable(), MqttDocuments.PAYLOADS))
                .contains("licensed, competent people");
        for (String document : MqttDocuments.of(SETTINGS, site, "0.1.0").values()) {
            assertThat(document).doesNotContain("/ask").doesNotContain("/reply").doesNotContain("permit");
        }
    }

    @Test
    void whatIsAskedAnsweredAndToldOfPermitsMatchesTheSchema() throws Exception {
        Site writable = TestPlant.writable();
        MqttSettings old = TestPlant.olderSettings("tcp://127.0.0.1:1883");
        List<String> lines = new ArrayList<>();
        for (SitePoint point : writable.points()) {
            for (ReplyPayload reply : replies()) {
                lines.add("reply\t" + reply.json(point.definition(), "", clock.now()));
            }
            lines.add("permit\t"
                    + PermitPayload.of(point.definition(), status(point), clock.now(), 1)
                            .payload());
            lines.add("permit\t"
                    + PermitPayload.of(point.definition(), nobody(point), clock.now(), 2)
                            .payload());
        }
        clock.believe(false);
        lines.add("reply\t"
                + ReplyPayload.unknown("so").json(writable.points().get(0).definition(), "", clock.now()));
        for (WriteEvent.Kind kind : WriteEvent.Kind.values()) {
            WriteEvent event = new WriteEvent(kind, writable.points().get(0).id(), "so");
            lines.add("event\t" + EventPayload.ofWrite("1", event, clock.now()).json(clock.now(), 0));
        }
        lines.add("ask\t{\"value\": 55, \"by\": \"plant optimiser\"}");
        lines.add("ask\t{\"value\": null, \"by\": \"plant optimiser\"}");
        String payloads = document(SETTINGS, writable, MqttDocuments.PAYLOADS);
        assertThat(validated(payloads, lines, 0)).isEqualTo("checked " + lines.size() + "\n");

        List<String> older = List.of(
                "ask\t{\"value\": 55, \"by\": \"x\", \"id\": \"17\", \"expires\": \"2026-11-25T08:00:30Z\"}",
                "reply\t"
                        + ReplyPayload.unknown("so")
                                .json(writable.points().get(0).definition(), "17", clock.now()));
        assertThat(validated(document(old, writable, MqttDocuments.PAYLOADS), older, 0))
                .isEqualTo("checked 2\n");
    }

    private static List<ReplyPayload> replies() {
        return List.of(
                ReplyPayload.of(new Fate.Written(BigDecimal.ONE), false),
                ReplyPayload.of(new Fate.Written(BigDecimal.ZERO), true),
                ReplyPayload.of(new Fate.Behind(8, new Source.Bacnet(0x7F000001, 47808, 0)), false),
                ReplyPayload.of(new Fate.GivenUp(), false),
                ReplyPayload.of(new Fate.Overtaken(), false),
                ReplyPayload.of(new Fate.Withheld(Question.INTERVAL, "wait", true), false),
                ReplyPayload.of(new Fate.Withheld(Question.FRESH, "late", false), false),
                ReplyPayload.of(new Fate.Failed("not-taken", "holds 3"), false),
                ReplyPayload.of(new Fate.Failed("unknown", "no reply"), false),
                ReplyPayload.refused("malformed", "no"));
    }

    private static PermitStatus status(SitePoint point) {
        return new PermitStatus(
                point.id(),
                List.of(
                        new PermitStatus.Held(12, BigDecimal.ONE, new Source.Mqtt("x"), OptionalLong.of(1)),
                        new PermitStatus.Held(16, BigDecimal.ZERO, new Source.Mqtt("y"), OptionalLong.empty())),
                "held",
                "failed",
                "asleep",
                true,
                Optional.of(BigDecimal.ONE),
                1,
                3,
                OptionalLong.of(100));
    }

    private static PermitStatus nobody(SitePoint point) {
        return new PermitStatus(point.id(), List.of(), "", "", "", false, Optional.empty(), 0, 0, OptionalLong.empty());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            ask    | {"value":55}
            ask    | {"value":[55],"by":"x"}
            ask    | {"value":55,"by":"x","id":"17"}
            reply  | {"result":"perhaps","sentAt":"2026-11-25T08:00:00.250Z"}
            reply  | {"result":"accepted","sentAt":"2026-11-25T08:00:00.250Z"}
            reply  | {"result":"refused","value":55,"code":"range","sentence":"no","sentAt":"2026-11-25T08:00:00.250Z"}
            permit | {"winner":17,"slots":[],"sentAt":"2026-11-25T08:00:00.250Z","validFor":60,"sequence":1}
            permit | {"winner":12,"slots":[{"slot":12}],"sentAt":"2026-11-25T08:00:00.250Z","validFor":60,"sequence":1}
            """)
    void aMessageOfWritesThatIsWrongDoesNot(String definition, String payload) throws Exception {
        String payloads = document(SETTINGS, TestPlant.writable(), MqttDocuments.PAYLOADS);
        assertThat(validated(payloads, List.of(definition + "\t" + payload), 1)).startsWith("wrong " + definition);
    }

    @Test
    void theRightsAreThoseOfWhatMayBeAskedForAndNoMore() {
        String rights = document(SETTINGS, TestPlant.writable(), MqttDocuments.RIGHTS);
        String bridge = rights.substring(rights.indexOf("user burner-bridge"), rights.indexOf("user reader"));
        assertThat(bridge.lines().filter(line -> line.startsWith("topic")))
                .containsExactly(
                        "topic write plant/heat/quillmere/+/+",
                        "topic read plant/heat/quillmere/+/about",
                        "topic write plant/heat/quillmere/+/+/permit",
                        "topic read plant/heat/quillmere/boiler-1/load/ask",
                        "topic write plant/heat/quillmere/boiler-1/load/reply/#",
                        "topic read plant/heat/quillmere/boiler-1/enable/ask",
                        "topic write plant/heat/quillmere/boiler-1/enable/reply/#",
                        "topic read plant/heat/quillmere/boiler-1/mode/ask",
                        "topic write plant/heat/quillmere/boiler-1/mode/reply/#",
                        "topic read plant/heat/quillmere/boiler-1/bare/ask",
                        "topic write plant/heat/quillmere/boiler-1/bare/reply/#");
        assertThat(rights.substring(rights.indexOf("user asker")))
                .contains("topic write plant/heat/quillmere/boiler-1/load/ask\n")
                .doesNotContain("boiler-1/limit");
        assertThat(rights).contains("# Caution: This is not a safety device");
    }

    @Test
    void theSameSiteGivesTheSameText() {
        assertThat(MqttDocuments.of(SETTINGS, site, "1")).isEqualTo(MqttDocuments.of(SETTINGS, site, "1"));
    }

    private static Map<Integer, Value> values() {
        Map<Integer, Value> values = new LinkedHashMap<>();
        values.put(0, new RealValue(42.5, 1));
        values.put(1, new IntegerValue(BigInteger.TWO.pow(64).subtract(BigInteger.ONE)));
        values.put(2, new StateValue(3, PHASES.texts().get(3L)));
        values.put(3, new BitValue(true));
        values.put(4, new BitValue(false));
        values.put(5, new TextValue("a\"b\\\u0001\n#+/ \u4e2d\ud83d\udd25"));
        values.put(6, new DateTimeValue(LocalDateTime.of(2026, 11, 25, 8, 0)));
        return values;
    }

    private void tell(List<String> lines, SitePoint point, Reading reading) {
        table.publish(point, reading);
        Teller teller = Objects.requireNonNull(topics.points().get(point.ordinal()));
        tell(lines, "point.burner." + point.definition().name(), teller);
    }

    private void tellLinks(List<String> lines) {
        Teller link = topics.controllers().get(0);
        Stamp now = clock.now();
        tell(lines, "link", link);
        for (ControllerLink next : List.of(
                ControllerLink.up(now),
                ControllerLink.down(Cause.LINE_DOWN, "line \"one\" \u0001", now),
                ControllerLink.up(now))) {
            table.publish(site.controllers().get(0), next);
            topics.linkChanged(site.controllers().get(0), next, now);
            tell(lines, "link", link);
        }
        Teller events = topics.controllerEvents().get(0);
        tell(lines, "event", events);
        events.told();
        tell(lines, "event", events);
    }

    private void tellOthers(List<String> lines) {
        tell(lines, "bridge-link", topics.bridge());
        tell(lines, "event", topics.bridgeEvents());
        lines.add("bridge-link\t" + topics.will().payload());
        topics.stopping(clock.now());
        tell(lines, "bridge-link", topics.bridge());
        tell(lines, "bridge-about", topics.abouts().get(0));
        tell(lines, "about", topics.abouts().get(1));
        tell(lines, "about", topics.abouts().get(2));
    }

    private void tell(List<String> lines, String definition, Teller teller) {
        teller.tell(clock.now(), lines.size() + 1L)
                .ifPresent(telling -> lines.add(definition + "\t" + telling.payload()));
    }

    private String document(String name) {
        return document(SETTINGS, site, name);
    }

    private static String document(MqttSettings settings, Site of, String name) {
        return Objects.requireNonNull(MqttDocuments.of(settings, of, "0.1.0").get(name));
    }

    private String parsed(String document, int exitCode) throws Exception {
        OutsideProgram.require("node", "nodejs");
        OutsideProgram.require(
                Files.isDirectory(OUTSIDE.resolve("asyncapi/node_modules/@asyncapi/parser")),
                "AsyncAPI's parser",
                "npm install --prefix outside/asyncapi");
        Path file = Files.writeString(folder.resolve("topics.json"), document);
        return run(List.of("node", OUTSIDE.resolve("asyncapi/read.js").toString(), file.toString()), "", exitCode);
    }

    private String validated(List<String> lines, int exitCode) throws Exception {
        return validated(document(MqttDocuments.PAYLOADS), lines, exitCode);
    }

    private String validated(String payloads, List<String> lines, int exitCode) throws Exception {
        OutsideProgram.require("python3", "python3");
        boolean there =
                new ProcessBuilder("python3", "-c", "import jsonschema").start().waitFor() == 0;
        OutsideProgram.require(there, "Python's jsonschema", "apt-get install python3-jsonschema");
        Path schema = Files.writeString(folder.resolve("schema.json"), payloads);
        return run(
                List.of(
                        "python3",
                        "-W",
                        "ignore",
                        OUTSIDE.resolve("payloads.py").toString(),
                        schema.toString()),
                String.join("\n", lines) + "\n",
                exitCode);
    }

    private static String run(List<String> command, String input, int exitCode)
            throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        try (OutputStream out = process.getOutputStream()) {
            out.write(input.getBytes(StandardCharsets.UTF_8));
        }
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor()).as(said).isEqualTo(exitCode);
        return said;
    }
}
