package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.line.Outcome.NotConnected;
import burnerbridge.site.LineDefinition;
import java.io.IOException;
import java.net.ServerSocket;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TcpTransportIT extends LineTransportContract<ScriptedTcpPeer> {

    @Override
    ScriptedTcpPeer newPeer() {
        return new ScriptedTcpPeer(ScriptedPeer.Shape.TCP);
    }

    @Override
    LineDefinition.Endpoint endpoint(ScriptedTcpPeer peer) {
        return new LineDefinition.Tcp("127.0.0.1", peer.port());
    }

    @Override
    boolean reopens() {
        return true;
    }

    @Test
    void everyRequestHasATransactionOfItsOwn() {
        peer.answersFromThenOn(THREE_REPLY);
        transport.read(THREE);
        transport.read(THREE);
        // MBAP of the Messaging on TCP/IP guide: transaction 1, protocol 0, length 6, unit 17.
        assertThat(HexFormat.of().formatHex(peer.requests.get(0))).isEqualTo("000100000006" + "11" + "03006b0003");
        assertThat(HexFormat.of().formatHex(peer.requests.get(1))).isEqualTo("000200000006" + "11" + "03006b0003");
    }

    /** A right reply with one thing of its header changed; the transaction of the first request is 1. */
    @ParameterizedTest
    @CsvSource({
        "0002 0000 0009 11 0306022B00000064, FRAMING, transaction id must be 1",
        "0100 0000 0009 11 0306022B00000064, FRAMING, transaction id must be 1",
        "0001 0001 0009 11 0306022B00000064, FRAMING, protocol id must be 0",
        "0001 0000 0008 11 0306022B000000, LENGTH, must hold 6 data bytes",
        "0001 0000 000A 11 0306022B0000006400, LENGTH, must hold 6 data bytes",
        "0001 0000 0004 11 830200, LENGTH, an exception reply",
        "0001 0000 0000 11, FRAMING, length must be",
        "0001 0000 0002 11 03, FRAMING, length must be",
        "0001 0000 00FF 11 03, FRAMING, length must be",
        "0001 0000 FFFF 11 03, FRAMING, length must be",
        "0001 0000 000A 11 0306022B00000064, LENGTH, only 15 of 16 bytes",
        "0001 0000 00, LENGTH, only 5 of 7 bytes"
    })
    void aHeaderThatIsNotTheReplysIsBrokenAndTheConnectionOpenedAnew(String reply, Fault fault, String why) {
        peer.then((request, out, connection) -> out.write(ScriptedPeer.hex(reply)));
        assertBroken(transport.read(THREE), fault, why);
        assertAnswersAfterDoubt();
    }

    @Test
    void aConnectionThatThePeerEndedWhileIdleIsOpenedAnewAndAskedAgain() {
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, THREE_REPLY));
            connection.close();
        });
        assertThat(transport.read(THREE)).isInstanceOf(Answered.class);
        assertAnswersAfterwardsOnConnection(2);
    }

    @Test
    void aPeerThatEndsEveryConnectionInsteadOfReplyingIsBroken() {
        peer.then((request, out, connection) -> connection.close());
        assertBroken(transport.read(THREE), Fault.ENDED, "no reply from");
        assertThat(peer.requests).hasSize(1);
    }

    @Test
    void aConnectionThatEndsInsideAReplyIsBroken() {
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, THREE_REPLY), 0, 8);
            connection.close();
        });
        assertBroken(transport.read(THREE), Fault.ENDED, "the reply broke off after");
        assertAnswersAfterDoubt();
    }

    @Test
    void aPortThatNobodyListensOnIsNotConnected() throws IOException {
        int free;
        try (ServerSocket socket = new ServerSocket(0)) {
            free = socket.getLocalPort();
        }
        FramedTransport nobody = transport(new LineDefinition.Tcp("127.0.0.1", free), REPLY_TIMEOUT);
        assertThat(((NotConnected) nobody.read(ONE)).why())
                .contains("127.0.0.1:" + free)
                .contains("refused");
    }
}
