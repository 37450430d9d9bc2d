package burnerbridge.simulator.device;

import burnerbridge.simulator.clock.Ticker;
import burnerbridge.simulator.frame.Frame;
import burnerbridge.simulator.frame.MbapFrame;
import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Act;
import burnerbridge.simulator.manners.Exchange;
import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.manners.WriteCourse;
import burnerbridge.simulator.manners.WriteCourse.Doing;
import burnerbridge.simulator.manners.WriteManners;
import burnerbridge.simulator.modbus.Units;
import burnerbridge.simulator.modbus.Write;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Decides what follows a request: the right reply, and what the manners make of it. For any thread. */
final class Behaviour {
    private static final int FIRST_THAT_READS = 1;
    private static final int LAST_THAT_READS = 4;

    private final Transport transport;
    private final Units units;
    private final Duration silence;
    private final Ticker ticker;
    private final WriteRecord record = new WriteRecord();
    private Manners manners = Manners.WELL;
    private WriteManners writeManners = WriteManners.WELL;
    private final Set<Integer> offTheLine = new HashSet<>();
    private final List<Later> later = new ArrayList<>();
    private boolean cablePulled;

    /** Something that is done once a time has come: it is looked for whenever anybody could see it. */
    private record Later(long nanos, Runnable work) {}

    Behaviour(Transport transport, Units units, Duration silence, Ticker ticker) {
        this.transport = transport;
        this.units = units;
        this.silence = silence;
        this.ticker = ticker;
    }

    synchronized void become(Manners other) {
        manners = other;
    }

    synchronized void becomeTowardWrites(WriteManners other) {
        writeManners = other;
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

    /** All frames that were no reads. */
    synchronized List<WrittenFrame> written() {
        doWhatIsDue();
        return record.all();
    }

    /** @param came when the request had come */
    synchronized List<Act> toward(Frame request, long came) {
        doWhatIsDue();
        Optional<WriteRecord.Entry> entry = isRead(request)
                ? Optional.empty()
                : Optional.of(record.came(came, request.unit(), transport.bytes(request)));
        if (request.protocol() != MbapFrame.MODBUS || cablePulled || isBroadcast(request)) {
            return List.of();
        }
        if (offTheLine.contains(request.unit())) {
            return List.of();
        }
        Optional<byte[]> reply = units.replyTo(request.unit(), request.pdu());
        return reply.map(pdu -> toward(exchange(request, pdu, came), entry, came))
                .orElse(List.of());
    }

    private Exchange exchange(Frame request, byte[] pdu, long came) {
        return new Exchange(
                transport,
                request,
                request.withPdu(pdu),
                units::replyTo,
                silence,
                () -> Duration.ofNanos(ticker.nanos() - came));
    }

    private List<Act> toward(Exchange exchange, Optional<WriteRecord.Entry> entry, long came) {
        Frame request = exchange.request();
        Optional<Write> write = units.accepted(request.unit(), request.pdu());
        if (write.isEmpty() || entry.isEmpty()) {
            return manners.toward(exchange);
        }
        WriteCourse course = writeManners.toward(exchange);
        take(course.doing(), request.unit(), write.get(), entry.get(), came);
        return course.reply().orElse(manners).toward(exchange);
    }

    private void take(Doing doing, int unit, Write write, WriteRecord.Entry entry, long came) {
        if (doing instanceof Doing.AtOnce) {
            apply(unit, write, entry);
        } else if (doing instanceof Doing.Otherwise) {
            apply(unit, write.changed(), entry);
        } else if (doing instanceof Doing.Late late) {
            later.add(new Later(came + late.after().toNanos(), () -> apply(unit, write, entry)));
        } else if (doing instanceof Doing.UndoneBySomebodyElse undone) {
            apply(unit, write, entry)
                    .ifPresent(before ->
                            later.add(new Later(came + undone.after().toNanos(), () -> units.apply(unit, before))));
        }
    }

    private Optional<Write> apply(int unit, Write write, WriteRecord.Entry entry) {
        Optional<Write> before = units.apply(unit, write);
        before.ifPresent(done -> entry.isDone());
        return before;
    }

    private void doWhatIsDue() {
        long now = ticker.nanos();
        List<Later> due = later.stream().filter(one -> now - one.nanos >= 0).toList();
        later.removeAll(due);
        due.forEach(one -> one.work.run());
    }

    private static boolean isRead(Frame request) {
        return request.function() >= FIRST_THAT_READS && request.function() <= LAST_THAT_READS;
    }

    /** On a serial line nobody answers unit 0 (MODBUS over Serial Line V1.02, clause 2.1). */
    private boolean isBroadcast(Frame request) {
        return transport.isRtu() && request.unit() == 0;
    }
}
