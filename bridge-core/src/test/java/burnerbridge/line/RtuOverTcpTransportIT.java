package burnerbridge.line;

import burnerbridge.site.LineDefinition;
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
}
