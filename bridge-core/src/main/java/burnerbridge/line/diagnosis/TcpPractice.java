package burnerbridge.line.diagnosis;

import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.LineDefinition.Tcp;
import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Modbus TCP, to a controller or to a gateway before several. */
record TcpPractice(Tcp tcp, Duration replyTimeout) implements Practice {

    @Override
    public Optional<String> lookAt(Kind kind, boolean ofOneUnit) {
        return Optional.ofNullable(words(kind));
    }

    private @Nullable String words(Kind kind) {
        return switch (kind) {
            case NOTHING_HEARD ->
                "the unit ids, whether it is Modbus TCP that is spoken at " + tcp
                        + ", whether a gateway there reaches the units, another client that keeps it busy, how many"
                        + " connections it takes, and `reply-timeout` (here " + Practice.words(replyTimeout) + ")";
            case UNIT_SILENT -> "its power, its unit id, and whether the gateway reaches it";
            case FRAMING ->
                "what is spoken at " + tcp + ": where a device server passes RTU frames on as they are the line is"
                        + " `rtu-over-tcp`; and at a gateway that mixes up transactions of several clients";
            case STRAY_BYTES -> "what else is sent on a connection to " + tcp + " than replies";
            case LENGTH ->
                "`reply-timeout` (here " + Practice.words(replyTimeout)
                        + "), the network, and the gateway's own time-out";
            case DOUBLED_UNIT -> "a gateway that repeats replies, and a second unit with the same id behind it";
            case OTHERS_REPLY -> "the unit ids, and a gateway that mixes up its units or its clients";
            case ENDED ->
                "the address " + tcp + ", how many connections it takes, other clients that hold them, and"
                        + " its idle time-out";
            // A connection begins with no reply owed, has no checksum, and carries nobody else's frames.
            case ECHO, BEGINNING_LOST, CHECKSUM, CHECKSUM_RISES_WITH_LENGTH, SECOND_MASTER, LATE_REPLY -> null;
        };
    }
}
