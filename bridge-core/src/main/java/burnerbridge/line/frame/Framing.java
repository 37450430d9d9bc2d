package burnerbridge.line.frame;

import burnerbridge.line.Request;
import burnerbridge.line.wire.Reception;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What stands around a data unit, and what a reply must have to be the reply to its request. */
public interface Framing {

    /** A fresh wire begins, of which nobody knows what was last on it. */
    void begins();

    /** Waits as long as must lie between what was last heard and the next frame. */
    void awaitTurn();

    /** The frame of a request; each call is another transaction. */
    byte[] frame(UnitId unit, byte[] pdu);

    /**
     * Takes a whole frame apart, by what stands in it alone.
     *
     * @return its unit identifier and behind it its data unit; empty where it is no frame of this kind from its first
     *     byte to its last
     */
    Optional<byte[]> opened(byte[] frame);

    /** How long the bytes of a request and of the reply that it asks for are on the wire. */
    Duration wireTime(Request request);

    /**
     * Takes the reply to a request.
     *
     * @param sent the frame that left last
     * @return what it says, or what is wrong; never an exception for anything that a peer can send
     * @throws IOException where the wire has ended
     */
    Pdu.Content receive(Reception in, byte[] sent, Request request) throws IOException;

    /**
     * Gathers what waits that nobody asked for.
     *
     * @throws IOException where the wire has ended
     */
    void listen(Reception in) throws IOException;

    /**
     * Tells what bytes are that are no reply, for the counters alone.
     *
     * @param sent the frame that left last before them
     * @param settled whether its reply had come before them, and nothing earlier was left unanswered
     * @param written a write that left before or just now, whose reply may still come and look like somebody's request
     */
    List<Overheard> overheard(
            byte[] bytes, byte[] sent, Request request, boolean settled, @Nullable WriteRequest written);
}
