package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteFolder;
import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.daemon.outside.Program;
import burnerbridge.mqtt.documents.MqttDocuments;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.site.QuillmereWithPermits;
import burnerbridge.site.Site;
import burnerbridge.state.Occupant;
import burnerbridge.state.StateFolder;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The whole bridge before the invented plant, which records every frame that is no read, with mosquitto and its own
 * programs as askers.
 */
class AskedByMqttIT {
    private static final long SEED = 10_408;
    private static final Duration LONGEST = Duration.ofSeconds(120);
    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final String PASSWORD = "a-password";
    private static final String LIMIT = "plant/quillmere/boiler-1/load-limit";
    private static final String ENABLE = "plant/quillmere/boiler-1/remote-enable";
    private static final String STEAM = "plant/quillmere/steam-1/load-limit";
    private static final String EVENTS = "plant/quillmere/boiler-1/events";
    private static final String PERMITS = """
            write-permits:
              - {point: boiler-1.load-limit, from: {mqtt: true}, range: 20..100, interval: 1 s, storage: volatile, function: 6, silence-after: 1 h, on-silence: write 20, reason: a test}
              - {point: boiler-1.remote-enable, from: {mqtt: true}, states: [held, released], interval: 1 s, storage: volatile, function: 5, mqtt-priority: 10, silence-after: 1 h, on-silence: write held, reason: a test}
              - {point: steam-1.load-limit, from: {bacnet: [127.0.0.1]}, range: 25.5..100, interval: 1 s, storage: volatile, function: 6, silence-after: 1 h, on-silence: write 25.5, reason: a test}
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final StopStack started = new StopStack();
    private final int brokerPort = FreePorts.tcp();

    @SuppressWarnings("NullAway.Init")
    private Quillmere plant;

    @SuppressWarnings("NullAway.Init")
    private Program broker;

    private int correlations;

    @BeforeAll
    static void require() {
        OutsideProgram.require(
                Files.isExecutable(Path.of("/usr/sbin/mosquitto")) || Files.isExecutable(Path.of("/usr/bin/mosquitto")),
                "the program mosquitto",
                "apt-get install mosquitto");
        OutsideProgram.require("mosquitto_rr", "mosquitto-clients");
    }

    @BeforeEach
    void startPlant() throws IOException {
        plant = new Quillmere(
                new Quillmere.Places(InetAddress.getLoopbackAddress(), 0, 0, 0),
                SEED,
                Instant.parse("2026-11-29T08:00:00Z"));
        started.push(plant);
        plant.acceptWrites(true);
        plant.start();
    }

    /** With the rights of the documents, so that they are wide enough and no wider. */
    private void startBroker(Site site) throws IOException, InterruptedException {
        Path rights = Files.writeString(
                folder.resolve("rights"),
                MqttDocuments.of(site.mqtt().orElseThrow(), site, "test").get(MqttDocuments.RIGHTS)
                        + "\nuser anybody\ntopic readwrite #\n");
        Path passwords = Files.writeString(folder.resolve("passwords"), "");
        for (String user : List.of("bridge", "reader", "asker", "anybody")) {
            OutsideProgram.output(List.of("mosquitto_passwd", "-b", passwords.toString(), user, PASSWORD));
        }
        Path conf = Files.writeString(
                folder.resolve("mosquitto.conf"),
                String.join(
                        "\n",
                        "listener " + brokerPort + " 127.0.0.1",
                        "allow_anonymous false",
                        "password_file " + passwords,
                        "acl_file " + rights,
                        "persistence false",
                        "user " + System.getProperty("user.name"),
                        ""));
        runBroker(conf);
        // Everything that is said, as somebody who listens hears it.
        started.push(Program.start(
                folder.resolve("heard.log"),
                client("mosquitto_sub", "reader", "5", "-v", "-t", "plant/quillmere/boiler-1/#")));
    }

    private void runBroker(Path conf) {
        String mosquitto =
                Files.isExecutable(Path.of("/usr/sbin/mosquitto")) ? "/usr/sbin/mosquitto" : "/usr/bin/mosquitto";
        broker = Program.start(folder.resolve("broker.log"), List.of(mosquitto, "-c", conf.toString()));
        started.push(broker);
        until(() -> {
            try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), brokerPort)) {
                return socket.isConnected();
            } catch (IOException e) {
                return false;
            }
        });
    }

    private Site siteOf(String version) throws IOException {
        Path to = folder.resolve("site");
        QuillmereWithPermits.writeTo(to, PERMITS);
        Path yaml = to.resolve("site.yaml");
        Files.writeString(
                yaml,
                Files.readString(yaml)
                        .replace("port: 7001", "port: " + plant.boilerHousePort())
                        .replace("port: 1502", "port: " + plant.annexPort())
                        .replace("port: 47808", "port: " + FreePorts.udp())
                        .replace(
                                "127.0.0.1:1883]",
                                "127.0.0.1:" + brokerPort + "]\n  version: " + version
                                        + "\n  user: bridge\n  password-file: "
                                        + Files.writeString(folder.resolve("password"), PASSWORD + "\n")));
        SiteFolder loaded = SiteFolder.load(to);
        assertThat(loaded.problems()).noneMatch(problem -> problem.isError());
        return loaded.site().orElseThrow();
    }

    private void startBridge(Site site) throws Exception {
        MachineClock clock = new MachineClock();
        StateFolder state = StateFolder.take(
                folder.resolve("state"),
                new Occupant(
                        "test",
                        ProcessHandle.current().pid(),
                        clock.now().wall(),
                        site.name().text(),
                        folder.resolve("site")));
        started.push(state);
        Bridge bridge = new Bridge(site, clock, LineThreads.ofThisJava(), state);
        started.push(bridge);
        bridge.start();
        until(() -> heard(LIMIT).stream().anyMatch(said -> said.contains("\"good\"")));
    }

    @AfterEach
    void close() {
        started.close();
    }

    private static void until(Callable<Boolean> is) {
        Awaitility.await()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(50))
                .atMost(LONGEST)
                .until(is);
    }

    private List<String> client(String program, String user, String version, String... more) {
        List<String> command = new ArrayList<>(List.of(
                program,
                "-V",
                version,
                "-h",
                "127.0.0.1",
                "-p",
                Integer.toString(brokerPort),
                "-q",
                "1",
                "-u",
                user,
                "-P",
                PASSWORD));
        command.addAll(List.of(more));
        return command;
    }

    private String run(String program, String version, String... more) throws IOException, InterruptedException {
        return runAs("asker", program, version, more);
    }

    private String runAs(String user, String program, String version, String... more)
            throws IOException, InterruptedException {
        return OutsideProgram.output(client(program, user, version, more)).strip();
    }

    /** What came on a topic so far, the oldest first. */
    private List<String> heard(String topic) throws IOException {
        try (var lines = Files.lines(folder.resolve("heard.log"))) {
            return lines.filter(line -> line.startsWith(topic + " "))
                    .map(line -> line.substring(topic.length() + 1))
                    .toList();
        }
    }

    private static JsonNode json(String said) {
        assertThat(said).as("an answer").startsWith("{");
        return JSON.readTree(said);
    }

    /** @param expiry seconds; 0: never */
    private String answerToFive(String point, String payload, String correlation, int expiry)
            throws IOException, InterruptedException {
        return run("mosquitto_rr", "5", question(point, payload, correlation, expiry, "30"));
    }

    private static String[] question(String point, String payload, String correlation, int expiry, String patience) {
        List<String> question = new ArrayList<>(
                List.of("-t", point + "/ask", "-e", point + "/reply/test", "-m", payload, "-W", patience));
        question.addAll(properties(correlation, expiry));
        return question.toArray(String[]::new);
    }

    private static List<String> properties(String correlation, int expiry) {
        List<String> properties = new ArrayList<>(List.of("-D", "publish", "correlation-data", correlation));
        if (expiry > 0) {
            properties.addAll(List.of("-D", "publish", "message-expiry-interval", Integer.toString(expiry)));
        }
        return properties;
    }

    private JsonNode askFive(String point, String payload) throws IOException, InterruptedException {
        return json(answerToFive(point, payload, "c" + ++correlations, 30));
    }

    private JsonNode askOlder(String point, String value, String id, String expires)
            throws IOException, InterruptedException {
        return json(answerToOlder(point, olderAsk(value, id, expires)));
    }

    private static String olderAsk(String value, String id, String expires) {
        return "{\"value\": " + value + ", \"by\": \"older\", \"id\": \"" + id + "\", \"expires\": \"" + expires
                + "\"}";
    }

    private String answerToOlder(String point, String payload) throws IOException, InterruptedException {
        return run("mosquitto_rr", "311", "-t", point + "/ask", "-e", point + "/reply", "-m", payload, "-W", "30");
    }

    private static String in(long seconds) {
        return Instant.now()
                .plusSeconds(seconds)
                .truncatedTo(ChronoUnit.SECONDS)
                .toString();
    }

    private static String value(String value) {
        return "{\"value\": " + value + ", \"by\": \"plant optimiser\"}";
    }

    private String permits(String... more) {
        StringWriter said = new StringWriter();
        CommandLine command = Main.commandLine();
        command.setOut(new PrintWriter(said));
        command.setErr(new PrintWriter(said));
        List<String> arguments = new ArrayList<>(List.of(
                "permits",
                folder.resolve("site").toString(),
                "--state",
                folder.resolve("state").toString(),
                "--wait",
                "60"));
        arguments.addAll(List.of(more));
        command.execute(arguments.toArray(String[]::new));
        return said.toString();
    }

    private int frames() {
        return plant.names().stream()
                .mapToInt(name -> plant.written(name).size())
                .sum();
    }

    private static void refused(JsonNode answer, String code) {
        assertThat(answer.path("result").asString()).as(answer.toString()).isEqualTo("refused");
        assertThat(answer.path("code").asString()).as(answer.toString()).isEqualTo(code);
        assertThat(answer.path("sentence").asString()).isNotEmpty();
    }

    @Test
    void asksOfFiveAreAnsweredAfterTheReadBackAndWhatIsNoneMovesNothing() throws Exception {
        Site site = siteOf("5");
        startBroker(site);
        startBridge(site);
        refused(askFive(LIMIT, value("60.5")), "approved");
        assertThat(permits("--approve", "a person")).contains("pproved");
        until(() ->
                answerToFive(LIMIT, value("60.5"), "try" + ++correlations, 30).contains("accepted"));
        assertThat(frames()).isEqualTo(1);
        renewsAndDoesNothingTwice();
        refusesWhatIsOutsideOrNoAsk();
        assertThat(frames()).isEqualTo(1);
        takesTheTextOfAStateAndTellsWhoAsks();
        assertThat(frames()).isEqualTo(2);
        ignoresWhatIsRetainedAndAnswersNowhereElse();
        asksNobodyWhereMqttMayNotAsk();
        assertThat(frames()).isEqualTo(2);

        assertThat(askFive(LIMIT, value("null")).path("result").asString()).isEqualTo("given-up");
        until(() -> frames() == 3);
        until(() -> heard(EVENTS).stream().anyMatch(said -> said.contains("\"silence\"")));
        assertThat(heard(EVENTS))
                .anyMatch(said -> said.contains("\"written\"") && said.contains("plant optimiser wrote 60.5"))
                .anyMatch(said -> said.contains("\"write-refused\"") && said.contains("\"load-limit\""));
        assertThat(permits("--audit"))
                .contains("malformed", "doubled", "fresh", "range", "type", "to-be-written", "given-up");
    }

    private void renewsAndDoesNothingTwice() throws IOException, InterruptedException {
        String renewed = answerToFive(LIMIT, value("60.5"), "first", 30);
        assertThat(json(renewed).path("result").asString()).isEqualTo("accepted");
        assertThat(json(renewed).path("value").decimalValue()).isEqualByComparingTo("60.5");
        assertThat(json(renewed).path("unit").asString()).isEqualTo("%");
        assertThat(json(renewed).path("renewed").asBoolean()).isTrue();
        assertThat(answerToFive(LIMIT, value("60.5"), "first", 30)).isEqualTo(renewed);
        refused(json(answerToFive(LIMIT, value("70"), "first", 30)), "doubled");
    }

    private void refusesWhatIsOutsideOrNoAsk() throws IOException, InterruptedException {
        refused(askFive(LIMIT, value("120")), "range");
        refused(askFive(LIMIT, value("\"much\"")), "type");
        refused(askFive(LIMIT, value("true")), "type");
        refused(askFive(LIMIT, value("NaN")), "malformed");
        refused(askFive(LIMIT, "{\"value\": 70}"), "malformed");
        refused(askFive(LIMIT, "{\"value\": 70, \"value\": 30, \"by\": \"x\"}"), "malformed");
        refused(json(answerToFive(LIMIT, value("70"), "long", 61)), "fresh");
        refused(json(answerToFive(LIMIT, value("70"), "ever", 0)), "fresh");
    }

    private void takesTheTextOfAStateAndTellsWhoAsks() throws IOException, InterruptedException {
        JsonNode enabled = askFive(ENABLE, value("\"released\""));
        assertThat(enabled.path("result").asString()).as(enabled.toString()).isEqualTo("accepted");
        assertThat(enabled.path("value").path("text").asString()).isEqualTo("released");
        JsonNode permit = json(run("mosquitto_sub", "5", "-t", ENABLE + "/permit", "-C", "1", "-W", "5"));
        assertThat(permit.path("winner").asInt()).isEqualTo(10);
        assertThat(permit.path("slots").get(0).path("source").asString()).isEqualTo("mqtt plant optimiser");
        assertThat(permit.path("slots").get(0).path("left").asInt()).isBetween(3_000, 3_600);
    }

    private void ignoresWhatIsRetainedAndAnswersNowhereElse() throws IOException, InterruptedException {
        run("mosquitto_pub", "5", "-r", "-t", LIMIT + "/ask", "-m", value("90"));
        until(() -> heard(LIMIT + "/reply").stream().anyMatch(said -> said.contains("retained")));
        List<String> elsewhere = new ArrayList<>(List.of("-t", LIMIT + "/ask", "-m", value("90")));
        elsewhere.addAll(List.of("-D", "publish", "response-topic", ENABLE + "/ask"));
        elsewhere.addAll(properties("x", 30));
        run("mosquitto_pub", "5", elsewhere.toArray(String[]::new));
        until(() -> heard(LIMIT + "/reply").stream().anyMatch(said -> said.contains("response topic")));
        assertThat(heard(ENABLE + "/ask")).hasSize(1);
    }

    /** Nobody even listens there, whatever the broker lets pass. */
    private void asksNobodyWhereMqttMayNotAsk() throws IOException, InterruptedException {
        assertThat(runAs("anybody", "mosquitto_rr", "5", question(STEAM, value("70"), "s", 30, "3")))
                .doesNotContain("result");
        assertThat(plant.written(Quillmere.STEAM_1)).isEmpty();
    }

    @Test
    void asksOfTheOlderVersionHaveIdAndTimeAndWhatABrokerKeptIsIgnored() throws Exception {
        Site site = siteOf("3.1.1");
        startBroker(site);
        run(
                "mosquitto_pub",
                "311",
                "-r",
                "-t",
                LIMIT + "/ask",
                "-m",
                "{\"value\": 90, \"by\": \"older\", \"id\": \"kept\", \"expires\": \"" + in(50) + "\"}");
        startBridge(site);
        permits("--approve", "a person");
        until(() -> permits("--audit").contains("must not be retained"));
        until(() -> answerToOlder(LIMIT, olderAsk("60", "i" + ++correlations, in(30)))
                .contains("accepted"));
        assertThat(frames()).isEqualTo(1);
        JsonNode renewed = askOlder(LIMIT, "60", "one", in(30));
        assertThat(renewed.path("result").asString()).as(renewed.toString()).isEqualTo("accepted");
        assertThat(renewed.path("id").asString()).isEqualTo("one");
        assertThat(renewed.path("value").decimalValue()).isEqualByComparingTo("60");

        refused(askOlder(LIMIT, "80", "one", in(30)), "doubled");
        refused(askOlder(LIMIT, "80", "late", in(-5)), "fresh");
        refused(askOlder(LIMIT, "80", "far", in(120)), "fresh");
        refused(askOlder(LIMIT, "80", "no-time", "tomorrow"), "malformed");
        refused(json(answerToOlder(LIMIT, value("80"))), "malformed");
        refused(askOlder(LIMIT, "120", "wide", in(30)), "range");
        assertThat(frames()).isEqualTo(1);

        // A broker that comes again knows nothing of the bridge, which subscribes anew.
        broker.end();
        runBroker(folder.resolve("mosquitto.conf"));
        until(() -> answerToOlder(LIMIT, olderAsk("60", "again" + ++correlations, in(30)))
                .contains("accepted"));
        assertThat(frames()).isEqualTo(1);
        assertThat(askOlder(LIMIT, "null", "end", in(30)).path("result").asString())
                .isEqualTo("given-up");
        until(() -> frames() == 2);
    }

    @Test
    void whoFloodsTheTopicMovesNothingAndKeepsNobodyOut() throws Exception {
        Site site = siteOf("5");
        startBroker(site);
        startBridge(site);
        permits("--approve", "a person");
        String flood = "yes '{}' | head -n 5000 | "
                + String.join(" ", client("mosquitto_pub", "asker", "5", "-l", "-t", LIMIT + "/ask"));
        assertThat(OutsideProgram.output(List.of("sh", "-c", flood))).isEmpty();
        until(() ->
                answerToFive(LIMIT, value("50"), "flood" + ++correlations, 30).contains("accepted"));
        assertThat(frames()).isEqualTo(1);
        assertThat(permits("--audit")).contains("malformed", "were not looked at");
    }
}
