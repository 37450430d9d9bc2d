package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.WriteOutcome.Accepted;
import burnerbridge.line.WriteOutcome.NotSent;
import burnerbridge.line.WriteOutcome.Unknown;
import burnerbridge.site.LineDefinition;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;

class TcpWritesIT extends LineWritesContract<ScriptedTcpPeer> {

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

    @Override
    boolean hasTransactions() {
        return true;
    }

    @Test
    void aReplyOfAnotherTransactionLeavesItUnknown() {
        connect();
        peer.then((request, out, connection) -> {
            byte[] reply = peer.reply(request, "06 002C 0384");
            reply[1]--;
            out.write(reply);
        });
        assertThat(((Unknown) writes.write(REGISTER, VALUE)).what()).contains("transaction id must be 2 (was 1)");
        assertReadAfterDoubt();
    }

    /** Whoever is behind the next connection has to be found out first. */
    @Test
    void overAConnectionThatEndedWhileIdleNothingIsSent() throws Exception {
        CountDownLatch ended = new CountDownLatch(1);
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, "03 02 00 0A"));
            connection.close();
            ended.countDown();
        });
        transport.read(ONE);
        assertThat(ended.await(10, TimeUnit.SECONDS)).isTrue();
        peer.requests.clear();
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(NotSent.class);
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(NotSent.class);
        assertThat(peer.requests).isEmpty();
        assertReadAfterwards(2);
        peer.answers("06 002C 0384");
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(Accepted.class);
        assertThat(writes.connections()).isEqualTo(2);
    }

    @Test
    void aPeerThatEndsTheConnectionInsteadOfReplyingLeavesItUnknownAndItIsNotSentAgain() {
        connect();
        peer.then((request, out, connection) -> connection.close());
        assertThat(((Unknown) writes.write(REGISTER, VALUE)).what()).contains("no reply from");
        assertReadAfterwards(2);
        assertThat(peer.requests.stream().filter(request -> pdu(request)[0] == 6))
                .hasSize(1);
    }

    @Test
    void aConnectionThatEndsInsideTheReplyLeavesItUnknown() {
        connect();
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, "06 002C 0384"), 0, 8);
            connection.close();
        });
        assertThat(((Unknown) writes.write(REGISTER, VALUE)).what()).contains("the reply broke off after");
        assertReadAfterDoubt();
    }

    @Test
    void whatWaitsThatNobodyAskedForEndsTheConnectionAndNothingIsSent() {
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, "03 02 00 0A"));
            out.write(peer.reply(request, "03 02 00 0A"));
        });
        transport.read(ONE);
        peer.requests.clear();
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(NotSent.class);
        assertThat(peer.requests).isEmpty();
        assertThat(transport.counts().unasked()).isEqualTo(1);
        assertReadAfterwards(2);
    }

    @Test
    void aSecondReplyIsNoReplyToTheNextWrite() {
        connect();
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, "06 002C 0384"));
            out.write(peer.reply(request, "06 002C 0384"));
        });
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(Accepted.class);
        Awaitility.await().until(() -> writes.write(REGISTER, VALUE) instanceof NotSent);
        assertReadAfterwards(2);
    }
}
