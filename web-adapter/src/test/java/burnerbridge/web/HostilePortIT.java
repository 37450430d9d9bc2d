package burnerbridge.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.measure.Metric;
import burnerbridge.model.Seed;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Clients that mean no good, and whether others notice. */
class HostilePortIT {
    private static final String HEALTH = RawClient.request("GET", "/health");
    private static final Pattern A_PAGE_IS_ASKED_FOR =
            Pattern.compile("(GET|HEAD) /(health|metrics) HTTP/1[.][01]\r\n.*", Pattern.DOTALL);

    private long filesBefore;

    @SuppressWarnings("NullAway.Init")
    private WebRig rig;

    @BeforeEach
    void start() throws WebStartException, IOException {
        filesBefore = WebRig.openFiles();
        rig = new WebRig();
    }

    @AfterEach
    void nothingIsLeft() {
        await().atMost(Duration.ofSeconds(10)).until(() -> {
            rig.clock.forward(Duration.ofSeconds(1));
            return rig.counted("open_connections") == 0;
        });
        assertThat(WebRig.threads()).isEqualTo(1);
        rig.close();
        assertThat(WebRig.threads()).isZero();
        // The selector's own are closed with it; sockets of the test a moment later.
        await().atMost(Duration.ofSeconds(10)).until(() -> WebRig.openFiles() <= filesBefore + 2);
    }

    private void healthIsThere() throws IOException {
        assertThat(rig.status(HEALTH)).isEqualTo(200);
    }

    @Test
    void aHeadThatComesDropByDropIsCutOffAndHoldsNobodyUp() throws IOException {
        List<RawClient> slow = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            RawClient client = new RawClient(rig.port());
            client.send("GET /health HTTP/1.1\r\nHost: localhost\r\nX: ");
            slow.add(client);
        }
        await().until(() -> rig.counted("open_connections") == 20);
        for (int second = 0; second < 4; second++) {
            for (RawClient client : slow) {
                client.send("x");
            }
            rig.clock.forward(Duration.ofSeconds(1));
            healthIsThere();
        }
        rig.clock.forward(Duration.ofSeconds(1));
        for (RawClient client : slow) {
            assertThat(RawClient.status(client.answer())).isEqualTo(408);
            client.close();
        }
        await().until(() -> rig.counted("connections_cut time") == 20);
    }

    @Test
    void aThousandSilentConnectionsHoldNobodyUp() throws IOException {
        List<RawClient> silent = new ArrayList<>();
        for (int i = 0; i < 1_000; i++) {
            silent.add(new RawClient(rig.port()));
            if (i % 100 == 0) {
                healthIsThere();
            }
        }
        healthIsThere();
        assertThat(rig.counted("connections")).isGreaterThanOrEqualTo(1_000);
        assertThat(rig.counted("open_connections")).isLessThanOrEqualTo(64);
        assertThat(rig.counted("connections_cut room")).isGreaterThan(900);
        assertThat(WebRig.threads()).isEqualTo(1);
        for (RawClient client : silent) {
            client.close();
        }
    }

    @Test
    void contentThatComesDropByDropIsNotWaitedFor() throws IOException {
        try (RawClient client = new RawClient(rig.port())) {
            client.send("POST /health HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1000000\r\n\r\nab");
            assertThat(RawClient.status(client.answer())).isEqualTo(405);
            client.send("c");
            healthIsThere();
        }
    }

    @Test
    void contentWithoutEndIsThrownAwayForAMomentAndThenCutOff() throws IOException {
        try (RawClient client = new RawClient(rig.port())) {
            client.send("GET /health HTTP/1.1\r\nHost: localhost\r\nContent-Length: 100000000000\r\n\r\n");
            assertThat(RawClient.status(client.answer())).isEqualTo(413);
            int sent = sendUntilCutOff(client, "b".repeat(10_000));
            assertThat(sent).isLessThan(20_000_000);
        }
        healthIsThere();
    }

    /** How many octets went before the other end would have no more; those in flight on the way are among them. */
    private static int sendUntilCutOff(RawClient client, String piece) {
        int sent = 0;
        try {
            while (sent < 50_000_000) {
                client.send(piece);
                sent += piece.length();
            }
        } catch (IOException e) {
            return sent;
        }
        throw new AssertionError("50 MB were taken");
    }

    @Test
    void aHeaderWithoutEndIsRefusedAt8KiB() throws IOException {
        try (RawClient client = new RawClient(rig.port())) {
            client.send(
                    "GET /health HTTP/1.1\r\nHost: localhost\r\n" + "X: yyyyyyyyyyyyyyyyyyyyyyyyyyy\r\n".repeat(2_000));
            client.endOutput();
            assertThat(RawClient.status(client.answer())).isEqualTo(431);
        }
        try (RawClient client = new RawClient(rig.port())) {
            client.send("GET /health HTTP/1.1\r\nHost: localhost\r\nX: ");
            sendUntilCutOff(client, "x".repeat(10_000));
        }
        healthIsThere();
    }

    @Test
    void aPathWithoutEndIsRefusedAt1KiB() throws IOException {
        assertThat(rig.status("GET /" + "a/../".repeat(1_000))).isEqualTo(414);
        assertThat(rig.status(RawClient.request("GET", "/" + "a".repeat(1_500))))
                .isEqualTo(414);
        healthIsThere();
    }

    @Test
    void oneConnectionHasOneAnswer() throws IOException {
        String answer = rig.ask(HEALTH + HEALTH + RawClient.request("GET", "/metrics"));
        assertThat(answer.split("HTTP/1[.]1 ", -1)).hasSize(2);
        await().until(() -> rig.counted("answers 200") > 0);
        assertThat(rig.counted("answers 200")).isEqualTo(1);
    }

    @Test
    void otherProtocolsAreRefusedAtOnce() throws IOException {
        assertThat(rig.status("GET /health\r\n")).isEqualTo(400);
        assertThat(rig.status("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n")).isEqualTo(505);
        assertThat(rig.status("\u0016\u0003\u0001\u0002\u0000\u0001\u0000")).isEqualTo(400);
        assertThat(rig.status("SSH-2.0-x\r\n")).isEqualTo(400);
        assertThat(rig.status("\u0010\u0010\u0000\u0004MQTT")).isEqualTo(400);
        assertThat(rig.status(RawClient.request("TRACE", "/health"))).isEqualTo(405);
        healthIsThere();
    }

    @Test
    void whoDoesNotTakeItsAnswerIsCutOffAndHoldsNobodyUp() throws IOException {
        Metric metric = Metric.gauge("burner_bridge_large", "Large.", "of");
        String large = "x".repeat(10_000);
        rig.metrics = sink -> {
            for (int i = 0; i < 1_500; i++) {
                sink.sample(metric, i, large + i);
            }
        };
        List<RawClient> slow = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            RawClient client = new RawClient(rig.port());
            client.send(RawClient.request("GET", "/metrics"));
            slow.add(client);
        }
        await().atMost(Duration.ofSeconds(60)).until(() -> rig.counted("answers 200") == 8);
        healthIsThere();
        // 15 MB each, and no more than 16 MiB of it lies in memory.
        await().until(() -> rig.counted("connections_cut room") >= 5);
        rig.clock.forward(Duration.ofSeconds(10));
        await().until(() -> rig.counted("connections_cut time") >= 1);
        for (RawClient client : slow) {
            assertThat(client.answer().length()).isLessThan(15_000_000);
            client.close();
        }
        healthIsThere();
    }

    @Test
    void brokenRequestsByTheThousandGetNoPage() throws IOException {
        Random random = new Random(Seed.value());
        System.out.println("seed " + Seed.value());
        Map<String, Integer> answers = new TreeMap<>();
        for (int i = 0; i < 4_000; i++) {
            byte[] request = mutant(random);
            String answer = answerTo(request);
            String status = answer.isEmpty() ? "closed" : Integer.toString(RawClient.status(answer));
            answers.merge(status, 1, Integer::sum);
            if (status.equals("200")) {
                assertThat(new String(request, StandardCharsets.ISO_8859_1)).matches(A_PAGE_IS_ASKED_FOR);
            }
        }
        System.out.println("answers " + answers);
        assertThat(answers.keySet())
                .isSubsetOf("200", "400", "404", "405", "413", "414", "421", "431", "505", "closed")
                .contains("200", "400", "404", "405", "413", "431", "505", "closed");
        healthIsThere();
    }

    private String answerTo(byte[] request) throws IOException {
        try (RawClient client = new RawClient(rig.port())) {
            try {
                client.send(request);
                client.endOutput();
            } catch (IOException e) {
                return "";
            }
            return client.answer();
        }
    }

    private static byte[] mutant(Random random) {
        String[] methods = {"GET", "GET", "HEAD", "POST", "G\0T", "TRACE"};
        String[] targets = {
            "/health", "/metrics", "/health?x", "/", "/%68ealth", "http://localhost/health", "/../metrics"
        };
        String[] versions = {"HTTP/1.1", "HTTP/1.0", "HTTP/2.0", "HTTP/1.", ""};
        String[] headers = {
            "Host: localhost\r\n",
            "Host: localhost\r\n",
            "Host: x.example\r\n",
            "Content-Length: 7\r\n",
            "X: y\r\n",
            "Transfer-Encoding: chunked\r\n",
            "Connection: keep-alive\r\n",
            " folded\r\n",
            "X" + "y".repeat(9_000) + ": z\r\n"
        };
        StringBuilder text = new StringBuilder();
        text.append(pick(random, methods))
                .append(' ')
                .append(pick(random, targets))
                .append(' ');
        text.append(random.nextInt(3) > 0 ? versions[0] : pick(random, versions))
                .append("\r\n");
        text.append(headers[0]);
        for (int i = random.nextInt(3); i > 0; i--) {
            text.append(pick(random, headers));
        }
        text.append("\r\n");
        byte[] octets = text.toString().getBytes(StandardCharsets.ISO_8859_1);
        for (int i = random.nextInt(4); i > 0; i--) {
            octets = changed(octets, random);
        }
        return octets;
    }

    private static String pick(Random random, String[] of) {
        return of[random.nextInt(of.length)];
    }

    private static byte[] changed(byte[] octets, Random random) {
        int at = random.nextInt(octets.length + 1);
        byte[] other;
        switch (random.nextInt(5)) {
            case 0 -> other = Arrays.copyOf(octets, at);
            case 1 -> {
                other = octets.clone();
                if (at < other.length) {
                    other[at] = (byte) random.nextInt();
                }
            }
            case 2 -> {
                other = Arrays.copyOf(octets, octets.length + 1);
                System.arraycopy(octets, at, other, at + 1, octets.length - at);
                other[at] = (byte) random.nextInt();
            }
            case 3 -> other = Arrays.copyOfRange(octets, Math.min(at, octets.length), octets.length);
            default -> {
                other = Arrays.copyOf(octets, octets.length + at);
                System.arraycopy(octets, 0, other, octets.length, at);
            }
        }
        return other.length == 0 ? new byte[] {(byte) random.nextInt()} : other;
    }
}
