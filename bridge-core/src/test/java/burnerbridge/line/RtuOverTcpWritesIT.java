package burnerbridge.line;

import burnerbridge.site.LineDefinition;

class RtuOverTcpWritesIT extends RtuWritesContract<ScriptedTcpPeer> {

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
}
