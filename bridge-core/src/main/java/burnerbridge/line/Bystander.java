package burnerbridge.line;

import burnerbridge.line.frame.Framing;
import burnerbridge.line.frame.Overheard;
import burnerbridge.line.frame.Pdu;
import burnerbridge.line.frame.WriteRequest;
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
    private @Nullable Request request;

    private byte[] sent = {};
    private boolean answered;
    private long doubtUntil;
    /** The last write, while a reply to it is thought possible. */
    private @Nullable WriteRequest written;

    private long writtenUntil;

    Bystander(LineDefinition line, Framing framing, LineCounters counters, BridgeClock clock, Logger frames) {
        this.line = line.name().text();
        this.framing = framing;
        this.counters = counters;
        this.clock = clock;
        this.frames = frames;
        this.latestReply = Lines.latestReply(line).toNanos();
        this.doubtUntil = clock.ticks();
    }

    void sent(Request asked, byte[] frame) {
        request = asked;
        sent = frame;
        answered = false;
        if (asked instanceof WriteRequest write) {
            written = write;
            writtenUntil = latest(write);
        }
    }

    /** When the reply to a request that leaves now is no longer thought possible. */
    private long latest(@Nullable Request asked) {
        return clock.ticks()
                + latestReply
                + (asked == null ? 0 : framing.wireTime(asked).toNanos());
    }

    /** After each exchange, with what came in it. A second master may speak while a reply is awaited. */
    void ended(Outcome outcome, Reception in) {
        answered = outcome.isReply();
        if (answered) {
            return;
        }
        boolean came = outcome instanceof Outcome.Broken broken && CAME.contains(broken.fault());
        doubtUntil = came ? doubtUntil : latest(request);
        // The wrong reply to a write would look like somebody's request.
        if (outcome instanceof Outcome.Broken wrong && wrong.fault() != Fault.OTHER_WRITE) {
            overheard(in).stream()
                    .filter(overheard -> overheard.what() == Heard.REQUEST)
                    .forEach(counters::heard);
        }
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
        if (written != null && clock.ticks() - writtenUntil >= 0) {
            written = null;
        }
        return request == null || in.count() == 0
                ? List.of()
                : framing.overheard(in.all(), sent, request, settled, written);
    }
}
