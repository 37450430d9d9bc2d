package burnerbridge.line;

import burnerbridge.line.frame.Framing;
import burnerbridge.line.frame.MbapFraming;
import burnerbridge.line.frame.RtuFraming;
import burnerbridge.line.wire.HostName;
import burnerbridge.line.wire.SerialWire;
import burnerbridge.line.wire.Silence;
import burnerbridge.line.wire.TcpWire;
import burnerbridge.line.wire.Wire;
import burnerbridge.line.wire.WireTime;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.LineDefinition;
import java.time.Duration;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Supplier;

/** Makes the transport that a line's endpoint asks for. */
public final class Lines {
    /** Over TCP nobody knows whether the serial line behind has a parity bit; with it, a character is longer. */
    private static final int BITS_BEHIND_TCP = 11;
    /** A reply that begins so many reply time-outs after its deadline is thought impossible. */
    private static final int LATEST_REPLY = 5;

    private Lines() {}

    /** A transport that connects when it is first asked to read. */
    public static LineTransport transport(LineDefinition line, BridgeClock clock) {
        return framed(line, clock);
    }

    static FramedTransport framed(LineDefinition line, BridgeClock clock) {
        LineDefinition.Endpoint endpoint = line.endpoint();
        if (endpoint instanceof LineDefinition.Tcp tcp) {
            HostName host = new HostName(tcp.host(), clock);
            return framed(
                    line,
                    () -> new TcpWire(host, tcp.port(), line.connectTimeout(), clock),
                    new MbapFraming(),
                    new Doubts(Duration.ZERO),
                    clock);
        }
        if (endpoint instanceof LineDefinition.RtuOverTcp rtu) {
            HostName host = new HostName(rtu.host(), clock);
            WireTime time = new WireTime(rtu.baud(), BITS_BEHIND_TCP);
            return framed(
                    line,
                    () -> new TcpWire(host, rtu.port(), line.connectTimeout(), clock),
                    rtuFraming(time, false, clock),
                    lateReplies(line),
                    clock);
        }
        LineDefinition.Serial serial = (LineDefinition.Serial) endpoint;
        WireTime time = new WireTime(serial.baud(), serial.bitsPerCharacter());
        return framed(
                line,
                () -> new SerialWire(serial, time, clock, LockSupport::parkNanos),
                rtuFraming(time, serial.echo(), clock),
                lateReplies(line),
                clock);
    }

    private static FramedTransport framed(
            LineDefinition line, Supplier<Wire> wires, Framing framing, Doubts doubts, BridgeClock clock) {
        return new FramedTransport(
                line, wires, framing, doubts, new Turns(doubts, clock, LockSupport::parkNanos), clock);
    }

    private static Framing rtuFraming(WireTime time, boolean echo, BridgeClock clock) {
        return new RtuFraming(time, new Silence(time.silence(), clock, LockSupport::parkNanos), echo);
    }

    private static Doubts lateReplies(LineDefinition line) {
        return new Doubts(latestReply(line));
    }

    /** How long after its request a reply is still thought possible, besides the time of both on the wire. */
    static Duration latestReply(LineDefinition line) {
        return line.replyTimeout().multipliedBy(1 + LATEST_REPLY);
    }
}
