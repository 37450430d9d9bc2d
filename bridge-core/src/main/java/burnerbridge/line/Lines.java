package burnerbridge.line;

import burnerbridge.model.BridgeClock;
import burnerbridge.site.LineDefinition;

/** Makes the transport that a line's endpoint asks for. */
public final class Lines {
    private Lines() {}

    /** A transport that connects when it is first asked to read. */
    public static LineTransport transport(LineDefinition line, BridgeClock clock) {
        LineDefinition.Endpoint endpoint = line.endpoint();
        if (endpoint instanceof LineDefinition.Tcp tcp) {
            return new TcpTransport(tcp, line.replyTimeout(), line.connectTimeout(), clock);
        }
        throw new IllegalArgumentException(line.name() + ": no transport for " + endpoint);
    }
}
