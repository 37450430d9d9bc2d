package burnerbridge.line;

import burnerbridge.line.diagnosis.Finding;
import burnerbridge.site.UnitId;
import java.util.List;

/**
 * One Modbus connection with one master. {@link #read} belongs to the line's own thread; the others may be
 * called from any.
 */
public interface LineTransport extends AutoCloseable {

    /**
     * Does one transaction, connecting first where needed. Returns within connect and reply time-out, beside
     * the time on the wire; of the latter a line without transaction ids may need several while replies to
     * earlier requests may still come. What a reply says has the time of the first request that it may be the
     * reply to.
     */
    Outcome read(ReadRequest request);

    /**
     * The tick from which a request may be asked: after {@code now} while its unit wants its pause, and while a
     * late reply could be taken for its own that asking again does not help against. Asked sooner, {@link #read}
     * waits. It belongs to the line's own thread too.
     */
    long readyAt(ReadRequest request, long now);

    /** What became of the requests so far. For any thread; a snapshot. */
    LineCounts counts();

    /** The same of one unit alone. */
    LineCounts counts(UnitId unit);

    /**
     * How many replies a unit itself has given so far, be it refusals, but without those by which a gateway says that it
     * cannot reach it. For any thread.
     */
    default long replies(UnitId unit) {
        return counts(unit).answered();
    }

    /**
     * What the counts show that somebody should look at, as it stood when the line was last looked at; nothing
     * on a healthy line. For any thread; a snapshot.
     */
    List<Finding> findings();

    /**
     * Ends the connection for good; a read under way ends within 100 ms, even one that waits for a host name.
     * Idempotent.
     */
    @Override
    void close();
}
