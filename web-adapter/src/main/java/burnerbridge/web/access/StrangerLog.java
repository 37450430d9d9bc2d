package burnerbridge.web.access;

import java.net.InetAddress;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Tells who was refused: one line a minute at most, with how many there were. What was shown is never told. */
final class StrangerLog {
    static final long BETWEEN = TimeUnit.MINUTES.toNanos(1);
    private static final Logger LOG = LoggerFactory.getLogger(StrangerLog.class);

    private boolean hasTold;
    private long toldAt;
    private long since;

    void refused(InetAddress peer, String why, long now) {
        since++;
        if (hasTold && now - toldAt < BETWEEN) {
            LOG.debug("web: {} is refused: {}", peer.getHostAddress(), why);
            return;
        }
        if (since == 1) {
            LOG.warn("web: {} is refused: {}", peer.getHostAddress(), why);
        } else {
            LOG.warn("web: {} is refused: {}; {} refusals since the last such line", peer.getHostAddress(), why, since);
        }
        hasTold = true;
        toldAt = now;
        since = 0;
    }
}
