package burnerbridge.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.SocketException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(60)
class ControlServerIT {
    private static final Greeting GREETING = new Greeting("0.1.0", "quillmere", 4711);
    private static final Limits BRISK = new Limits(3, Duration.ofSeconds(20), Duration.ofMillis(500));
    private static final Map<String, Supplier<RequestHandler>> HANDLERS = Map.of(
            "echo", () -> (request, reply) -> reply.line(json -> json.writeStringProperty("said", request.name())),
            "many",
                    () -> (request, reply) -> {
                        int lines = request.count("lines", 0);
                        for (int i = 0; i < lines; i++) {
                            int number = i;
                            reply.line(json -> json.writeNumberProperty("line", number));
                        }
                    },
            "defect",
                    () -> (request, reply) -> {
                        throw new IllegalStateException("a secret of the inside");
                    });

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final List<SocketChannel> raw = new ArrayList<>();

    @SuppressWarnings("NullAway.Init")
    private ControlServer server;

    @BeforeEach
    void start() throws IOException {
        server = new ControlServer(socket(), GREETING, HANDLERS, BRISK);
        server.start();
    }

    @AfterEach
    void end() throws IOException {
        server.close();
        for (SocketChannel channel : raw) {
            channel.close();
        }
    }

    private Path socket() {
        return folder.resolve("control").resolve("socket");
    }

    private static String permissions(Path path) throws IOException {
        return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
    }

    private SocketChannel rawClient() throws IOException {
        SocketChannel channel = SocketChannel.open(StandardProtocolFamily.UNIX);
        raw.add(channel);
        channel.connect(UnixDomainSocketAddress.of(socket()));
        return channel;
    }

    /** Everything until the bridge hangs up. */
    private static String rest(SocketChannel channel) throws IOException {
        ByteBuffer bytes = ByteBuffer.allocate(1024 * 1024);
        try {
            while (channel.read(bytes) >= 0) {
                assertThat(bytes.hasRemaining()).isTrue();
            }
        } catch (SocketException e) {
            // It hung up without having read all; what it said before has come.
        }
        return StandardCharsets.UTF_8.decode(bytes.flip()).toString();
    }

    private static void send(SocketChannel channel, byte[] bytes) {
        try {
            ByteBuffer buffer = ByteBuffer.wrap(bytes);
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
        } catch (IOException e) {
            // It has hung up already, having seen enough.
        }
    }

    private String answerTo(byte[] bytes) throws IOException {
        SocketChannel channel = rawClient();
        send(channel, bytes);
        channel.shutdownOutput();
        return rest(channel).replaceFirst("^[^\n]*\n", "");
    }

    private String echo() throws ControlException {
        try (ControlClient client = ControlClient.connect(socket())) {
            StringBuilder said = new StringBuilder();
            client.ask("echo", json -> {}, line -> said.append(line.get("said")));
            return said.toString();
        }
    }

    @Test
    void onlyItsUserCanReachIt() throws IOException {
        assertThat(permissions(socket())).isEqualTo("rw-------");
        assertThat(permissions(folder.resolve("control"))).isEqualTo("rwx------");
    }

    @Test
    void aClientIsGreetedAndAnsweredAgainAndAgain() throws ControlException {
        try (ControlClient client = ControlClient.connect(socket())) {
            assertThat(client.greeting()).isEqualTo(GREETING);
            List<Object> lines = new ArrayList<>();
            client.ask("many", json -> json.writeNumberProperty("lines", 20_000), line -> lines.add(line.get("line")));
            assertThat(lines).hasSize(20_000);
            client.ask("echo", json -> {}, lines::add);
            assertThat(lines).hasSize(20_001);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "hello\n",
                "\n",
                "[]\n",
                "{\"ask\":1}\n",
                "{\"asked\":\"echo\"}\n",
                "GET / HTTP/1.1\r\n",
                "{\"ask\":\"echo\"\n"
            })
    void whatIsNoRequestGetsOneLineAndIsHungUpOn(String line) throws Exception {
        String answer = answerTo(line.getBytes(StandardCharsets.UTF_8));
        assertThat(answer.lines().toList()).hasSize(1);
        assertThat(answer).startsWith("{\"error\":\"no-request\"").doesNotContain("Exception");
        assertThat(echo()).isEqualTo("echo");
    }

    @Test
    void binaryGarbageGetsAtMostOneLine() throws Exception {
        long seed = 20261125;
        Random random = new Random(seed);
        for (int i = 0; i < 200; i++) {
            byte[] bytes = new byte[1 + random.nextInt(3000)];
            random.nextBytes(bytes);
            String answer = answerTo(bytes);
            assertThat(answer.lines().count()).as("seed %s, round %s", seed, i).isLessThanOrEqualTo(1);
        }
        assertThat(echo()).isEqualTo("echo");
    }

    @Test
    void aLineThatNeverEndsIsCutOff() throws Exception {
        byte[] endless = new byte[Protocol.LONGEST_REQUEST + 1];
        java.util.Arrays.fill(endless, (byte) 'x');
        assertThat(answerTo(endless)).startsWith("{\"error\":\"too-long\"");
        assertThat(echo()).isEqualTo("echo");
    }

    @Test
    void anUnknownRequestIsToldWhatIsKnown() {
        assertThatThrownBy(() -> ask("values")).hasMessageContaining("it knows [defect, echo, many]");
    }

    @Test
    void aDefectOfOursShowsNothingOfTheInside() {
        assertThatThrownBy(() -> ask("defect"))
                .message()
                .contains("error of its own")
                .doesNotContain("secret");
        assertThatThrownBy(() -> ask("many", "lines", "no number")).hasMessageContaining("lines must be a whole");
    }

    private void ask(String name, String... argument) throws ControlException {
        try (ControlClient client = ControlClient.connect(socket())) {
            client.ask(
                    name,
                    json -> {
                        if (argument.length > 0) {
                            json.writeStringProperty(argument[0], argument[1]);
                        }
                    },
                    line -> {});
        }
    }

    @Test
    void oneTooManyIsToldSoAndAPlaceThatIsFreeAgainIsGiven() throws Exception {
        List<ControlClient> clients = new ArrayList<>();
        for (int i = 0; i < BRISK.clients(); i++) {
            clients.add(ControlClient.connect(socket()));
        }
        assertThatThrownBy(this::echo)
                .isInstanceOf(ControlException.class)
                .isNotInstanceOf(NobodyAnswersException.class)
                .hasMessageContaining("3 programs ask it at the same time");
        clients.remove(0).close();
        Awaitility.await().ignoreExceptions().until(() -> echo().equals("echo"));
        clients.forEach(ControlClient::close);
    }

    @Test
    void oneThatReadsNothingDelaysNobodyAndIsGivenUp() throws Exception {
        SocketChannel slow = rawClient();
        send(slow, "{\"ask\":\"many\",\"lines\":10000000}\n".getBytes(StandardCharsets.UTF_8));
        assertThat(echo()).isEqualTo("echo");
        Awaitility.await().until(() -> threads("control client") == 0);
        // What had been sent until then is all there is.
        assertThat(rest(slow).length()).isLessThan(1024 * 1024);
    }

    private static long threads(String prefix) {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().startsWith(prefix))
                .count();
    }

    @Test
    void oneThatAsksNothingIsHungUpOn() throws Exception {
        server.close();
        server = new ControlServer(
                socket(), GREETING, HANDLERS, new Limits(3, Duration.ofMillis(100), Duration.ofSeconds(1)));
        server.start();
        assertThat(rest(rawClient())).contains("{\"error\":\"idle\"");
    }

    @Test
    void closingHangsUpOnEverybodyAndTakesTheSocketAway() throws Exception {
        SocketChannel waiting = rawClient();
        CompletableFuture<String> heard = CompletableFuture.supplyAsync(() -> {
            try {
                return rest(waiting);
            } catch (IOException e) {
                return "";
            }
        });
        Awaitility.await().until(() -> threads("control client") == 1);
        server.close();
        server.close();
        assertThat(heard.get(10, TimeUnit.SECONDS)).doesNotContain("error");
        assertThat(socket()).doesNotExist();
        // A thread lives on for a moment after it has told that its client is gone.
        Awaitility.await().until(() -> threads("control client") == 0);
        assertThatThrownBy(this::echo).isInstanceOf(NobodyAnswersException.class);
    }

    @Test
    void aSocketThatADeadProcessLeftIsReplaced() throws Exception {
        server.close();
        try (ServerSocketChannel dead = ServerSocketChannel.open(StandardProtocolFamily.UNIX)) {
            dead.bind(UnixDomainSocketAddress.of(socket()));
        }
        assertThat(socket()).exists();
        assertThatThrownBy(this::echo).isInstanceOf(NobodyAnswersException.class);
        server = new ControlServer(socket(), GREETING, HANDLERS, BRISK);
        server.start();
        assertThat(echo()).isEqualTo("echo");
    }

    @Test
    void aPathThatIsTooLongForTheSystemIsToldInWords() {
        Path deep = folder.resolve("x".repeat(100)).resolve("socket");
        ControlServer tooLong = new ControlServer(deep, GREETING, HANDLERS);
        assertThatThrownBy(tooLong::start)
                .isInstanceOf(IOException.class)
                .hasMessageContaining("at most 107")
                .hasMessageContaining("--state");
        tooLong.close();
    }

    @Test
    void aBridgeThatStandsStillIsNotWaitedForForEver() throws Exception {
        Path mute = folder.resolve("mute");
        try (ServerSocketChannel listening = ServerSocketChannel.open(StandardProtocolFamily.UNIX)) {
            listening.bind(UnixDomainSocketAddress.of(mute));
            assertThatThrownBy(() -> ControlClient.connect(mute))
                    .isInstanceOf(ControlException.class)
                    .isNotInstanceOf(NobodyAnswersException.class)
                    .hasMessageContaining("does not answer within 10 s");
        }
    }
}
