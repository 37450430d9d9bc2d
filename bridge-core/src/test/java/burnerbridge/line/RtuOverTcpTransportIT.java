package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.model.Registers;
import burnerbridge.model.RunningClock;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.RegisterTable;
import java.time.Duration;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

class RtuOverTcpTransportIT extends RtuContract<ScriptedTcpPeer> {

    @Override
    ScriptedTcpPeer newPeer() {
        return new ScriptedTcpPeer(ScriptedPeer.Shape.RTU);
    }

    @Override
    LineDefinition.Endpoint endpoint(ScriptedTcpPeer peer) {
        return new LineDefinition.RtuOverTcp("127.0.0.1", peer.port(), 9600);
    }

    @Override
    boolean reopens() {
        return true;
    }

    @Test
    void aConnectionThatThePeerEndedWhileIdleIsOpenedAnewAndAskedAgain() {
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, THREE_REPLY));
            connection.close();
        });
        transport.read(THREE);
        assertAnswersAfterwardsOnConnection(2);
    }

    /** A hundred registers take two seconds at this rate, whatever the reply time-out. */
    @Test
    void aReplyThatIsLongOnItsWireNeverAnswersTheNextQuestion() throws Exception {
        LineDefinition.Endpoint slow = new LineDefinition.RtuOverTcp("127.0.0.1", peer.port(), 1200);
        FramedTransport impatient = transport(slow, Duration.ofMillis(20));
        peer.then((request, out, connection) -> connection.close());
        assertBroken(impatient.read(hundredFrom(0)), Fault.ENDED, "no reply from");
        TimeUnit.MILLISECONDS.sleep(300);
        peer.answers("03 C8" + "AA".repeat(200));
        peer.answersFromThenOn("03 C8" + "00 01".repeat(100));
        Outcome next = impatient.read(hundredFrom(200));
        assertThat(((Answered) next).data().word(0)).isEqualTo(1);
        impatient.close();
    }

    private static ReadRequest hundredFrom(int first) {
        return new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, first, 100);
    }

    /** As a device server does that still has a reply for whoever connects. */
    @Test
    void whatAFreshConnectionBringsByItselfIsNotTheReply() {
        peer.greets(peer.reply(new byte[2], "03 06 AAAA AAAA AAAA"));
        peer.answersFromThenOn(THREE_REPLY);
        assertThat(((Answered) transport.read(THREE)).data()).isEqualTo(Registers.of(555, 0, 100));
        assertThat(transport.counts().unasked()).isEqualTo(1);
    }

    /** Asking again on a new connection would leave it open which of the two is answered. */
    @Test
    void aConnectionThatEndedWhileIdleIsFoundOutBeforeItIsAsked() throws Exception {
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, THREE_REPLY));
            connection.close();
        });
        transport.read(THREE);
        TimeUnit.MILLISECONDS.sleep(100);
        assertAnswersAfterwardsOnConnection(2);
        ReadRequest other = new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 9, 1);
        long now = new RunningClock().ticks();
        assertThat(transport.readyAt(other, now)).isEqualTo(now);
    }
}
