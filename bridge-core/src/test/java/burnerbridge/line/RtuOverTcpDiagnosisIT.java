package burnerbridge.line;

import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.LineDefinition;
import org.junit.jupiter.api.Test;

class RtuOverTcpDiagnosisIT extends RtuDiagnosisContract<ScriptedTcpPeer> {

    @Override
    ScriptedTcpPeer newPeer() {
        return new ScriptedTcpPeer(ScriptedPeer.Shape.RTU);
    }

    @Override
    LineDefinition.Endpoint endpoint(ScriptedTcpPeer peer) {
        return new LineDefinition.RtuOverTcp("127.0.0.1", peer.port(), 9600);
    }

    @Test
    void connectionsThatEndInsteadOfRepliesAreTheDeviceServersNumberOfThem() {
        read(5, THREE, (request, out, connection) -> connection.close());
        assertFinds(Kind.ENDED, "the connection ended instead of a reply", "how many connections the device server");
    }
}
