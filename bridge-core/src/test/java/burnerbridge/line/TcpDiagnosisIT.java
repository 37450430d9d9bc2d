package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.LineDefinition;
import java.time.Duration;
import java.util.Arrays;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;

class TcpDiagnosisIT extends DiagnosisContract<ScriptedTcpPeer> {

    @Override
    ScriptedTcpPeer newPeer() {
        return new ScriptedTcpPeer(ScriptedPeer.Shape.TCP);
    }

    @Override
    LineDefinition.Endpoint endpoint(ScriptedTcpPeer peer) {
        return new LineDefinition.Tcp("127.0.0.1", peer.port());
    }

    @Test
    void connectionsThatEndInsteadOfRepliesAreTheirNumber() {
        read(5, THREE, (request, out, connection) -> connection.close());
        assertFinds(Kind.ENDED, "the connection ended instead of a reply", "how many connections it takes");
    }

    @Test
    void rtuFramesFromAModbusTcpPortAreAnotherKindOfLine() {
        read(
                5,
                THREE,
                (request, out, connection) ->
                        out.write(ScriptedPeer.Shape.RTU.frame(request, ScriptedPeer.UNIT, THREE_REPLY)));
        assertFinds(Kind.FRAMING, "5 times on 5 requests", "`rtu-over-tcp`");
    }

    private void answersAndMore(boolean asReply) {
        read(THREE, (request, out, connection) -> {
            byte[] reply = peer.reply(request, THREE_REPLY);
            byte[] both = Arrays.copyOf(reply, 2 * reply.length);
            if (asReply) {
                System.arraycopy(reply, 0, both, reply.length, reply.length);
            }
            out.write(both);
        });
        Awaitility.await().pollDelay(Duration.ofMillis(30)).until(() -> true);
        read(THREE, right(THREE_REPLY));
    }

    @Test
    void aSecondReplyToOneRequestIsARepeater() {
        for (int i = 0; i < 5; i++) {
            answersAndMore(true);
        }
        assertThat(transport.counts().heard(Heard.SECOND_REPLY)).isEqualTo(5);
        read(5, THREE, NOTHING);
        assertFinds(Kind.DOUBLED_UNIT, LineTransportContract.UNIT, "5 times on 15 requests", "a gateway that repeats");
    }

    @Test
    void bytesBetweenRepliesAreSomethingElseOnTheConnection() {
        for (int i = 0; i < 5; i++) {
            answersAndMore(false);
        }
        assertThat(transport.counts().heard(Heard.NOISE)).isEqualTo(5);
        read(5, THREE, NOTHING);
        assertFinds(Kind.STRAY_BYTES, "5 times on 15 requests", "what else is sent on a connection");
    }
}
