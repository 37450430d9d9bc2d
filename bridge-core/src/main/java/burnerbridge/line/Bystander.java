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
import java.util.stream.Collectors;
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
        this.latestReply = Lines.latestReply(line).toNanos();
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
        doubtUntil = came ? doubtUntil : clock.ticks() + latestReply + wireTimeOf(request);
        if (outcome instanceof Outcome.Broken) {
            overheard(in).stream()
                    .filter(overheard -> overheard.what() == Heard.REQUEST)
                    .forEach(counters::heard);
        }
    }

    private long wireTimeOf(@Nullable ReadRequest asked) {
        return asked == null ? 0 : framing.wireTime(asked).toNanos();
    }

    /**
     * Looks at what is there that nobody asked for, and gathers it, so that it can be thrown away.
     *
     * @param listen whether to wait a moment for it, too, and so find out that the wire has ended
     * @return whether there is anything
     * @throws IOException where the wire has ended and nothing came before
     */
    boolean hears(Wire open, boolean listen) throws IOException {
        Reception in = new Reception(open, Deadline.after(LONGEST, clock), clock);
        if (open.waiting() == 0 && !(listen && in.begins())) {
            return false;
        }
        try {
            framing.listen(in);
        } catch (IOException e) {
            // It has ended, as whoever goes on with it finds; what came before does still tell something.
        }
        counters.foundUnasked();
        List<Overheard> all = overheard(in);
        all.forEach(counters::heard);
        if (frames.isDebugEnabled()) {
            frames.debug("line {}: not asked for, so thrown away: {}: {}", line, Pdu.hex(in.all()), words(all));
        }
        return true;
    }

    private static String words(List<Overheard> all) {
        return all.isEmpty()
                ? "there before the first request"
                : all.stream().map(Overheard::toString).collect(Collectors.joining(", "));
    }

    private List<Overheard> overheard(Reception in) {
        boolean settled = answered && clock.ticks() - doubtUntil >= 0;
        return request == null || in.count() == 0 ? List.of() : framing.overheard(in.all(), sent, request, settled);
    }
}
