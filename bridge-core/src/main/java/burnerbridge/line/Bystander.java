package burnerbridge.line;

import burnerbridge.line.frame.Framing;
import burnerbridge.line.frame.Overheard;
import burnerbridge.line.frame.Pdu;
import burnerbridge.line.wire.Deadline;
import burnerbridge.line.wire.Reception;
import burnerbridge.line.wire.Wire;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.LineDefinition;
import java.io.IOException;
import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;

/** Counts what is heard on a line besides the replies to its requests. Nothing of it goes any further. */
final class Bystander {
    private static final Duration LONGEST = Duration.ofMillis(500);
    /** With these the reply did come, in whatever state. */
    private static final Set<Fault> CAME =
            EnumSet.of(Fault.CHECKSUM, Fault.OVERLAID, Fault.BEGINNING_LOST, Fault.ECHO, Fault.STRAY_BYTES);

    private final String line;
    private final Framing framing;
    private final LineCounters counters;
    private final BridgeClock clock;
    private final Logger frames;
    private final long latestReply;

    /** What left last, as far as anything did. */
    private @Nullable ReadRequest request;

    private byte[] sent = {};
    private boolean answered;
    private long doubtUntil;

    Bystander(LineDefinition line, Framing framing, LineCounters counters, BridgeClock clock, Logger frames) {
        this.line = line.name().text();
        this.framing = framing;
        this.counters = counters;
        this.clock = clock;
        this.frames = frames;
        this.latestReply = line.replyTimeout().multipliedBy(Lines.LATEST_REPLY).toNanos();
        this.doubtUntil = clock.ticks();
    }

    void sent(ReadRequest asked, byte[] frame) {
        request = asked;
        sent = frame;
        answered = false;
    }

    /** After each exchange, with what came in it. A second master may speak while a reply is awaited. */
    void ended(Outcome outcome, Reception in) {
        answered = outcome.isReply();
        if (answered) {
            return;
        }
        boolean came = outcome instanceof Outcome.Broken broken && CAME.contains(broken.fault());
        doubtUntil = came ? doubtUntil : clock.ticks() + latestReply;
        if (outcome instanceof Outcome.Broken) {
            overheard(in).stream()
                    .filter(overheard -> overheard.what() == Heard.REQUEST)
                    .forEach(counters::heard);
        }
    }

    /** Looks at what waits that nobody asked for, before it is thrown away. */
    void unasked(Wire open) {
        Reception in = new Reception(open, Deadline.after(LONGEST, clock), clock);
        try {
            framing.listen(in);
        } catch (IOException e) {
            // It has ended, as draining will find; what came before it did still tells something.
        }
        counters.foundUnasked();
        List<Overheard> all = overheard(in);
        all.forEach(counters::heard);
        if (frames.isDebugEnabled()) {
            frames.debug("line {}: not asked for: {}: {}", line, Pdu.hex(in.all()), all);
        }
    }

    private List<Overheard> overheard(Reception in) {
        boolean settled = answered && clock.ticks() - doubtUntil >= 0;
        return request == null || in.count() == 0 ? List.of() : framing.overheard(in.all(), sent, request, settled);
    }
}
