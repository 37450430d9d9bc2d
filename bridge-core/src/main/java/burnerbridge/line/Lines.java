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
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Makes the transport that a line's endpoint asks for; alone here anything is made that can write. */
public final class Lines {
    /** Over TCP nobody knows whether the serial line behind has a parity bit; with it, a character is longer. */
    private static final int BITS_BEHIND_TCP = 11;
    /** A reply that begins so many reply time-outs after its deadline is thought impossible. */
    private static final int LATEST_REPLY = 5;

    private static final int ANY_UNIT = 255;

    private Lines() {}

    /** A transport that connects when it is first asked to read. It never writes. */
    public static LineTransport transport(LineDefinition line, BridgeClock clock) {
        return framed(line, clock);
    }

    /**
     * A line that is read, and written as some templates say, in everything but the value.
     *
     * @param guards of every unit that a template writes
     * @throws IllegalArgumentException where a template reaches what is protected, nothing is known of what is protected
     *     in its unit, or its unit is 255 and the line is not direct Modbus TCP
     */
    public static WritableLine writable(
            LineDefinition line, BridgeClock clock, List<WriteTemplate> templates, Map<UnitId, Guard> guards) {
        templates.forEach(template -> requireWritable(line, template, guards.get(template.unit())));
        FramedTransport transport = framed(line, clock, templates, guards);
        return new WritableLine(transport, new FramedWrites(transport, templates));
    }

    private static void requireWritable(LineDefinition line, WriteTemplate template, @Nullable Guard guard) {
        String what = "line " + line.name() + ": the write of " + template + " ";
        if (template.unit().number() == ANY_UNIT && !(line.endpoint() instanceof LineDefinition.Tcp)) {
            throw new IllegalArgumentException(what + "is to unit 255, which is written over direct Modbus TCP alone");
        }
        if (guard == null) {
            throw new IllegalArgumentException(what + "is to a unit of which nothing says what is protected");
        }
        LastCheck.against(guard, template.range()).ifPresent(met -> {
            throw new IllegalArgumentException(what + "would reach " + met.why());
        });
    }

    static FramedTransport framed(LineDefinition line, BridgeClock clock) {
        return framed(line, clock, List.of(), Map.of());
    }

    static FramedTransport framed(
            LineDefinition line, BridgeClock clock, List<WriteTemplate> templates, Map<UnitId, Guard> guards) {
        Leave leave = new Leave(templates, guards);
        LineDefinition.Endpoint endpoint = line.endpoint();
        if (endpoint instanceof LineDefinition.Tcp tcp) {
            HostName host = new HostName(tcp.host(), clock);
            return framed(
                    line,
                    () -> new TcpWire(host, tcp.port(), line.connectTimeout(), clock),
                    new MbapFraming(),
                    leave,
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
                    leave,
                    lateReplies(line),
                    clock);
        }
        LineDefinition.Serial serial = (LineDefinition.Serial) endpoint;
        WireTime time = new WireTime(serial.baud(), serial.bitsPerCharacter());
        return framed(
                line,
                () -> new SerialWire(serial, time, clock, LockSupport::parkNanos),
                rtuFraming(time, serial.echo(), clock),
                leave,
                lateReplies(line),
                clock);
    }

    /** What may be written, and what never. */
    private record Leave(List<WriteTemplate> templates, Map<UnitId, Guard> guards) {}

    private static FramedTransport framed(
            LineDefinition line, Supplier<Wire> wires, Framing framing, Leave leave, Doubts doubts, BridgeClock clock) {
        return new FramedTransport(
                line,
                wires,
                framing,
                new LastCheck(framing, leave.templates, leave.guards),
                doubts,
                new Turns(doubts, clock, LockSupport::parkNanos),
                clock);
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
