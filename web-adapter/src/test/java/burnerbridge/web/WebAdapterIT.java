package burnerbridge.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import burnerbridge.health.HealthReport;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.HandClock;
import burnerbridge.site.WebSettings;
import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class WebAdapterIT {
    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();
    private static final String HEALTH = RawClient.request("GET", "/health");

    @SuppressWarnings("NullAway.Init")
    private WebRig rig;

    @BeforeEach
    void start() throws WebStartException {
        rig = new WebRig();
    }

    @AfterEach
    void close() {
        rig.close();
    }

    private HealthReport report(List<String> stalled, Trouble... troubles) {
        return new HealthReport(true, stalled, true, List.of(troubles), "quillmere", "0.1.0", rig.clock.now(), true);
    }

    private Trouble broker(String seen) {
        return new Trouble(Place.BROKER, "mqtt", seen, "the broker", rig.clock.now(), Trouble.Weight.NOT_READY);
    }

    @Test
    void healthIsJsonForAnyParser() throws IOException {
        String awkward = "nothing \"comes\" back\\\n\u0001 é 😀 </script>";
        rig.report = report(List.of(), broker(awkward));
        JsonNode health = JSON.readTree(RawClient.body(rig.ask(HEALTH)));
        assertThat(health.get("alive").asBoolean()).isTrue();
        assertThat(health.get("ready").asBoolean()).isFalse();
        assertThat(health.get("degraded").asBoolean()).isTrue();
        JsonNode reason = health.get("reasons").get(0);
        assertThat(reason.get("place").asString()).isEqualTo("broker");
        assertThat(reason.get("about").asString()).isEqualTo("mqtt");
        assertThat(reason.get("seen").asString()).isEqualTo(awkward);
        assertThat(reason.get("lookAt").asString()).isEqualTo("the broker");
        assertThat(reason.get("since").asString()).isEqualTo("2026-11-25T08:00:00.250Z");
        assertThat(reason.get("weight").asString()).isEqualTo("not-ready");
        assertThat(health.get("site").asString()).isEqualTo("quillmere");
        assertThat(health.get("version").asString()).isEqualTo("0.1.0");
        assertThat(health.get("startedAt").asString()).isEqualTo("2026-11-25T08:00:00.250Z");
        assertThat(health.get("clock").asString()).isEqualTo("believed");
        assertThat(health.get("moreReasons").asInt()).isZero();
    }

    @Test
    void whatIsNotReadyIsNoReasonToRestartIt() throws IOException {
        rig.report = report(List.of(), broker("away"));
        assertThat(rig.status(HEALTH)).isEqualTo(200);
    }

    @Test
    void whatIsStalledIs503() throws IOException {
        rig.report = report(List.of("line annex"));
        String answer = rig.ask(HEALTH);
        assertThat(RawClient.status(answer)).isEqualTo(503);
        assertThat(JSON.readTree(RawClient.body(answer)).get("stalled").get(0).asString())
                .isEqualTo("line annex");
    }

    @Test
    void everyAnswerHasItsHeadersAndNamesNoProgram() throws IOException {
        for (String text : List.of(HEALTH, RawClient.request("GET", "/"), "rubbish\r\n")) {
            assertThat(rig.ask(text))
                    .contains("\r\nCache-Control: no-store\r\n")
                    .contains("\r\nX-Content-Type-Options: nosniff\r\n")
                    .contains("\r\nContent-Security-Policy: default-src 'none'\r\n")
                    .contains("\r\nConnection: close\r\n")
                    .contains("\r\nContent-Type: ")
                    .doesNotContainIgnoringCase("server:")
                    .doesNotContainIgnoringCase("java");
        }
    }

    @Test
    void headSaysWhatGetWouldSay() throws IOException {
        String get = rig.ask(HEALTH);
        String head = rig.ask(RawClient.request("HEAD", "/health"));
        assertThat(RawClient.body(get)).isNotEmpty();
        assertThat(head)
                .isEqualTo(get.substring(0, get.length() - RawClient.body(get).length()));
        assertThat(RawClient.body(rig.ask(RawClient.request("HEAD", "/nowhere"))))
                .isEmpty();
    }

    @Test
    void metricsAreMadeAnewAtEachRequest() throws IOException {
        Metric metric = Metric.gauge("burner_bridge_load_ratio", "Load.", "line");
        rig.metrics = sink -> sink.sample(metric, 0.5, "annex");
        String text = RawClient.request("GET", "/metrics");
        assertThat(rig.ask(text)).contains("burner_bridge_load_ratio{line=\"annex\"} 0.5\n");
        rig.metrics = sink -> sink.sample(metric, 0.75, "annex");
        assertThat(rig.ask(text)).contains("burner_bridge_load_ratio{line=\"annex\"} 0.75\n");
        assertThat(rig.ask(text.replace("\r\n\r\n", "\r\nAccept: application/openmetrics-text\r\n\r\n")))
                .contains("Content-Type: application/openmetrics-text; version=1.0.0; charset=utf-8\r\n")
                .endsWith("# EOF\n");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/",
                "/health/",
                "/Health",
                "/HEALTH",
                "//health",
                "/./health",
                "/../health",
                "/x/../health",
                "/%68ealth",
                "/health%00",
                "/health%2f",
                "/health?",
                "/health?x=1",
                "/metrics?name[]=x",
                "/health#x",
                "/health;x",
                "\\health",
                "health",
                "*",
                "http://localhost/health",
                "localhost:80"
            })
    void allOtherPathsAreNotThere(String target) throws IOException {
        assertThat(rig.status(RawClient.request("GET", target))).isEqualTo(404);
    }

    @ParameterizedTest
    @ValueSource(strings = {"POST", "PUT", "DELETE", "OPTIONS", "TRACE", "CONNECT", "PATCH", "get", "FETCH"})
    void allOtherMethodsAreRefused(String method) throws IOException {
        for (String target : List.of("/health", "/metrics")) {
            String answer = rig.ask(RawClient.request(method, target).replace("\r\n\r\n", "\r\nX: echo-me\r\n\r\n"));
            assertThat(RawClient.status(answer)).isEqualTo(405);
            assertThat(answer).contains("\r\nAllow: GET, HEAD\r\n").doesNotContain("echo-me");
        }
    }

    @Test
    void contentIsNotTaken() throws IOException {
        String head = HEALTH.substring(0, HEALTH.length() - 2);
        assertThat(rig.status(head + "Content-Length: 5\r\n\r\nhello")).isEqualTo(413);
        assertThat(rig.status(head + "Transfer-Encoding: chunked\r\n\r\n0\r\n\r\n"))
                .isEqualTo(413);
        assertThat(rig.status(head + "Content-Length: 0\r\n\r\n")).isEqualTo(200);
    }

    @Test
    void aPageOfSomewhereElseCannotReadItByANameOfItsOwn() throws IOException {
        for (String host : List.of("rebound.example", "rebound.example:" + rig.port(), "192.0.2.7", "")) {
            assertThat(rig.status(HEALTH.replace("localhost", host))).as(host).isEqualTo(421);
        }
        assertThat(rig.status(HEALTH.replace("localhost", "127.0.0.1:" + rig.port())))
                .isEqualTo(200);
        assertThat(rig.status("GET /health HTTP/1.0\r\n\r\n")).isEqualTo(200);
    }

    @Test
    void anOrdinaryClientReadsBothPages() throws IOException, InterruptedException {
        HttpClient client = HttpClient.newHttpClient();
        for (String page : List.of("/health", "/metrics", "/health")) {
            HttpResponse<String> answer = client.send(
                    HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + rig.port() + page))
                            .build(),
                    HttpResponse.BodyHandlers.ofString());
            assertThat(answer.statusCode()).isEqualTo(200);
        }
    }

    @Test
    void aFaultInAPageIsAnsweredAndCostsNothingElse() throws IOException {
        HealthReport fine = rig.report;
        rig.report = null;
        assertThat(rig.status(HEALTH)).isEqualTo(500);
        assertThat(rig.status(RawClient.request("GET", "/metrics"))).isEqualTo(200);
        rig.report = fine;
        assertThat(rig.status(HEALTH)).isEqualTo(200);
    }

    @Test
    void whatIsAnsweredIsCounted() throws IOException {
        rig.ask(HEALTH);
        rig.ask(HEALTH);
        rig.ask(RawClient.request("GET", "/"));
        rig.ask("rubbish\r\n");
        await().until(() -> rig.counted("answers 400") == 1);
        assertThat(rig.counted("answers 200")).isEqualTo(2);
        assertThat(rig.counted("answers 404")).isEqualTo(1);
        assertThat(rig.counted("connections")).isEqualTo(4);
        await().until(() -> rig.counted("open_connections") == 0);
    }

    @Test
    void aPortThatIsTakenIsToldWithWhoToAsk() throws IOException {
        try (ServerSocket taken =
                new ServerSocket(0, 1, WebSettings.onLoopback(0).address())) {
            int port = taken.getLocalPort();
            assertThatThrownBy(() -> new WebRig(WebSettings.onLoopback(port), Map.of()))
                    .isInstanceOf(WebStartException.class)
                    .hasMessage("web: 127.0.0.1 port " + port + " cannot be opened: another program has it;"
                            + " ss -ltnp shows which, or choose another port");
        }
    }

    @Test
    void anAddressThatIsNotHereIsTold() {
        WebSettings settings =
                new WebSettings("192.0.2.1", 9311, Optional.of(new WebSettings.TokenPlace.InEnvironment()));
        assertThatThrownBy(
                        () -> new WebRig(settings, Map.of(WebSettings.TOKEN_VARIABLE, "a-token-that-is-long-enough")))
                .isInstanceOf(WebStartException.class)
                .hasMessage("web: 192.0.2.1 port 9311 cannot be opened: no interface of this machine has this address");
    }

    @Test
    void withoutTheTokenThatIsWantedNoPortIsOpened() throws IOException {
        long before = WebRig.openFiles();
        WebSettings settings = new WebSettings("0.0.0.0", 0, Optional.of(new WebSettings.TokenPlace.InEnvironment()));
        assertThatThrownBy(() -> new WebRig(settings, Map.of()))
                .isInstanceOf(WebStartException.class)
                .hasMessage("web: no port is opened: the environment variable BURNER_BRIDGE_WEB_TOKEN is to hold the"
                        + " token, and is empty or not there");
        await().until(() -> WebRig.openFiles() <= before);
    }

    @Test
    void itIsHeardOnIpv6LoopbackWhereBoundToIt() throws Exception {
        try (WebRig six = new WebRig(new WebSettings("::1", 0, Optional.empty()), Map.of())) {
            HttpResponse<String> answer = HttpClient.newHttpClient()
                    .send(
                            HttpRequest.newBuilder(URI.create("http://[::1]:" + six.port() + "/health"))
                                    .build(),
                            HttpResponse.BodyHandlers.ofString());
            assertThat(answer.statusCode()).isEqualTo(200);
        }
    }

    @Test
    void afterTheEndNothingIsLeftAndItsPortCanBeHadAgainAtOnce() throws Exception {
        int port = rig.port();
        rig.ask(HEALTH);
        try (RawClient waiting = new RawClient(port)) {
            waiting.send("GET /");
            await().until(() -> rig.counted("open_connections") == 1);
            rig.close();
            rig.close();
            assertThat(waiting.answer()).isEmpty();
        }
        assertThat(WebRig.threads()).isZero();
        rig = new WebRig(WebSettings.onLoopback(port), Map.of());
        assertThat(rig.status(HEALTH)).isEqualTo(200);
        assertThat(WebRig.threads()).isEqualTo(1);
    }

    @Test
    void oneThatNeverStartedIsClosedWithoutAWord() {
        WebAdapter adapter = new WebAdapter(
                WebSettings.onLoopback(0), new Pages(() -> report(List.of()), MetricSource.NONE), new HandClock());
        adapter.close();
        assertThat(WebRig.threads()).isEqualTo(1);
    }
}
