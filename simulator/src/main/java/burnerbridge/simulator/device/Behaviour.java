package burnerbridge.simulator.device;

import burnerbridge.simulator.clock.Ticker;
import burnerbridge.simulator.frame.Frame;
import burnerbridge.simulator.frame.MbapFrame;
import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Act;
import burnerbridge.simulator.manners.Exchange;
import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.modbus.Units;
import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Decides what follows a request: the right reply, and what the manners make of it. For any thread. */
final class Behaviour {
    private final Transport transport;
    private final Units units;
    private final Duration silence;
    private final Ticker ticker;
    private Manners manners = Manners.WELL;
    private final Set<Integer> offTheLine = new HashSet<>();
    private boolean cablePulled;

    Behaviour(Transport transport, Units units, Duration silence, Ticker ticker) {
        this.transport = transport;
        this.units = units;
        this.silence = silence;
        this.ticker = ticker;
    }

    synchronized void become(Manners other) {
        manners = other;
    }

    synchronized void pullCable(boolean pulled) {
        cablePulled = pulled;
    }

    /** Takes one unit off the line while the others stay on it, or puts it back. */
    synchronized void pullCable(int unit, boolean pulled) {
        if (pulled) {
            offTheLine.add(unit);
        } else {
            offTheLine.remove(unit);
        }
    }

    /** @param came when the request had come */
    synchronized List<Act> toward(Frame request, long came) {
        if (request.protocol() != MbapFrame.MODBUS || cablePulled || isBroadcast(request)) {
            return List.of();
        }
        if (offTheLine.contains(request.unit())) {
            return List.of();
        }
        Optional<byte[]> reply = units.replyTo(request.unit(), request.pdu());
        return reply.map(pdu -> manners.toward(new Exchange(
                        transport,
                        request,
                        request.withPdu(pdu),
                        units::replyTo,
                        silence,
                        () -> Duration.ofNanos(ticker.nanos() - came))))
                .orElse(List.of());
    }

    /** On a serial line nobody answers unit 0 (MODBUS over Serial Line V1.02, clause 2.1). */
    private boolean isBroadcast(Frame request) {
        return transport.isRtu() && request.unit() == 0;
    }
}
