package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.line.Outcome.Broken;
import burnerbridge.line.Outcome.NotConnected;
import burnerbridge.line.Outcome.Refused;
import burnerbridge.line.Outcome.Silent;
import burnerbridge.model.Registers;
import burnerbridge.model.RunningClock;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.net.ServerSocket;
import java.time.Duration;
import java.util.HexFormat;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TcpTransportIT {
    private static final ReadRequest THREE = new ReadRequest(new UnitId(17), RegisterTable.HOLDING_REGISTER, 107, 3);
    private static final ReadRequest ONE = new ReadRequest(new UnitId(17), RegisterTable.HOLDING_REGISTER, 8, 1);
    private static final String THREE_REPLY = "03 06 02 2B 00 00 00 64";

    private final ScriptedPeer peer = new ScriptedPeer();
    private final TcpTransport transport = transport(peer.port(), Duration.ofMillis(300));

    private static TcpTransport transport(int port, Duration replyTimeout) {
        return new TcpTransport(
                new LineDefinition.Tcp("127.0.0.1", port), replyTimeout, Duration.ofSeconds(3), new RunningClock());
    }

    @AfterEach
    void end() {
        transport.close();
        peer.close();
    }

    private void assertAnswersAfterwardsOnConnection(int connections) {
        peer.answers("03 02 00 0A");
        assertThat(((Answered) transport.read(ONE)).data()).isEqualTo(Registers.of(10));
        assertThat(peer.connections).hasValue(connections);
    }

    @Test
    void aReadIsAnsweredAndTheConnectionKept() {
        peer.answers(THREE_REPLY);
        assertThat(((Answered) transport.read(THREE)).data()).isEqualTo(Registers.of(555, 0, 100));
        // MBAP of the Messaging on TCP/IP guide: transaction 1, protocol 0, length 6, unit 17.
        assertThat(HexFormat.of().formatHex(peer.requests.get(0))).isEqualTo("000100000006" + "11" + "03006b0003");
        assertAnswersAfterwardsOnConnection(1);
        assertThat(peer.requests.get(1)[1]).isEqualTo((byte) 2);
    }

    @Test
    void aReplyMayComeInAnyPieces() {
        for (int split = 1; split < 15; split++) {
            int at = split;
            peer.then((request, out, socket) -> {
                byte[] reply = ScriptedPeer.reply(request, THREE_REPLY);
                out.write(reply, 0, at);
                out.flush();
                for (int i = at; i < reply.length; i++) {
                    out.write(reply, i, 1);
                    out.flush();
                }
            });
            assertThat(transport.read(THREE)).isInstanceOf(Answered.class);
        }
        assertThat(peer.connections).hasValue(1);
    }

    @Test
    void anExceptionIsARefusalAndKeepsTheConnection() {
        peer.answers("83 02");
        assertThat(((Refused) transport.read(THREE)).code()).isEqualTo(2);
        assertAnswersAfterwardsOnConnection(1);
    }

    /** A right reply with one thing changed; the transaction of the first request is 1. */
    @ParameterizedTest
    @CsvSource({
        "0002 0000 0009 11 0306022B00000064, transaction id must be 1",
        "0100 0000 0009 11 0306022B00000064, transaction id must be 1",
        "0001 0001 0009 11 0306022B00000064, protocol id must be 0",
        "0001 0000 0009 12 0306022B00000064, unit must be 17",
        "0001 0000 0009 FF 0306022B00000064, unit must be 17",
        "0001 0000 0009 11 0406022B00000064, function 4 answered",
        "0001 0000 0007 11 0304022B0000, must hold 6 data bytes",
        "0001 0000 000B 11 0308022B000000640000, must hold 6 data bytes",
        "0001 0000 0009 11 0304022B00000064, must hold 6 data bytes",
        "0001 0000 0008 11 0306022B000000, must hold 6 data bytes",
        "0001 0000 000A 11 0306022B0000006400, must hold 6 data bytes",
        "0001 0000 0003 11 8300, an exception reply",
        "0001 0000 0004 11 830200, an exception reply",
        "0001 0000 0000 11, length must be",
        "0001 0000 0002 11 03, length must be",
        "0001 0000 00FF 11 03, length must be",
        "0001 0000 FFFF 11 03, length must be",
        "0001 0000 000A 11 0306022B00000064, only 8 of 9 bytes",
        "0001 0000 00, only 5 of 7 bytes"
    })
    void aReplyThatIsNotTheReplyIsBrokenAndTheConnectionOpenedAnew(String reply, String why) {
        peer.then((request, out, socket) -> out.write(HexFormat.of().parseHex(reply.replace(" ", ""))));
        assertThat(((Broken) transport.read(THREE)).what()).contains(why);
        assertAnswersAfterwardsOnConnection(2);
    }

    @Test
    void aLateReplyNeverAnswersTheNextQuestion() throws Exception {
        CountDownLatch timedOut = new CountDownLatch(1);
        CountDownLatch sentLate = new CountDownLatch(1);
        peer.then((request, out, socket) -> {
            timedOut.await();
            try {
                out.write(ScriptedPeer.reply(request, "03 06 AAAA AAAA AAAA"));
            } catch (IOException closedAlready) {
                // As good.
            }
            sentLate.countDown();
        });
        assertThat(transport.read(THREE)).isInstanceOf(Silent.class);
        timedOut.countDown();
        assertThat(sentLate.await(10, TimeUnit.SECONDS)).isTrue();
        peer.answers("03 06 000100020003");
        assertThat(((Answered) transport.read(THREE)).data()).isEqualTo(Registers.of(1, 2, 3));
        assertThat(peer.connections).hasValue(2);
    }

    @Test
    void aReplyThatDribblesPastItsDeadlineIsCutOff() {
        CountDownLatch never = new CountDownLatch(1);
        peer.then((request, out, socket) -> {
            byte[] reply = ScriptedPeer.reply(request, THREE_REPLY);
            for (int i = 0; i < reply.length - 1; i++) {
                out.write(reply, i, 1);
                out.flush();
                assertThat(never.await(40, TimeUnit.MILLISECONDS)).isFalse();
            }
        });
        // Fourteen bytes at 40 ms each take 560 ms: past 300 ms, though no pause alone is.
        assertThat(((Broken) transport.read(THREE)).what()).startsWith("only ");
        assertAnswersAfterwardsOnConnection(2);
    }

    @Test
    void aConnectionThatThePeerEndedWhileIdleIsOpenedAnewAndAskedAgain() {
        peer.then((request, out, socket) -> {
            out.write(ScriptedPeer.reply(request, THREE_REPLY));
            socket.close();
        });
        assertThat(transport.read(THREE)).isInstanceOf(Answered.class);
        assertAnswersAfterwardsOnConnection(2);
    }

    @Test
    void aPeerThatEndsEveryConnectionInsteadOfReplyingIsBroken() {
        peer.then((request, out, socket) -> socket.close());
        assertThat(((Broken) transport.read(THREE)).what()).contains("ended the connection");
        assertThat(peer.requests).hasSize(1);
    }

    @Test
    void bytesThatNobodyAskedForAreNotTheNextReply() {
        CountDownLatch sent = new CountDownLatch(1);
        peer.then((request, out, socket) -> {
            out.write(ScriptedPeer.reply(request, THREE_REPLY));
            out.write(ScriptedPeer.reply(request, "03 02 BAD0"));
            sent.countDown();
        });
        assertThat(((Answered) transport.read(THREE)).data()).isEqualTo(Registers.of(555, 0, 100));
        Awaitility.await().until(() -> sent.getCount() == 0);
        peer.answers("03 02 00 0A");
        assertThat(((Answered) transport.read(ONE)).data()).isEqualTo(Registers.of(10));
    }

    @Test
    void aPortThatNobodyListensOnIsNotConnected() throws IOException {
        int free;
        try (ServerSocket socket = new ServerSocket(0)) {
            free = socket.getLocalPort();
        }
        TcpTransport nobody = transport(free, Duration.ofMillis(300));
        assertThat(((NotConnected) nobody.read(ONE)).why())
                .contains("127.0.0.1:" + free)
                .contains("refused");
    }

    @Test
    void closingEndsAReadUnderWay() {
        TcpTransport patient = transport(peer.port(), Duration.ofMinutes(10));
        CountDownLatch asked = new CountDownLatch(1);
        peer.then((request, out, socket) -> {
            asked.countDown();
            new CountDownLatch(1).await();
        });
        CompletableFuture<Outcome> outcome = CompletableFuture.supplyAsync(() -> patient.read(ONE));
        assertTimeoutPreemptively(Duration.ofSeconds(10), () -> {
            asked.await();
            patient.close();
            outcome.get();
        });
        assertThat(patient.read(ONE)).isInstanceOf(NotConnected.class);
    }

    /** Write single coil and register, write multiple, mask write, read/write multiple, encapsulated. */
    @ParameterizedTest
    @CsvSource({
        "0500ACFF00",
        "0600010003",
        "0F0013000A02CD01",
        "100001000204000A0102",
        "16000400F20025",
        "17",
        "2B0E",
        "00"
    })
    void aWritingFunctionNeverLeavesTheTransport(String pdu) {
        assertThatThrownBy(() -> transport.transact(ONE, HexFormat.of().parseHex(pdu)))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("only functions 1 to 4");
        peer.answers("03 02 00 0A");
        assertThat(transport.read(ONE)).isInstanceOf(Answered.class);
        assertThat(peer.requests).hasSize(1);
    }
}
