package burnerbridge.bacnet.edge;

import com.serotonin.bacnet4j.apdu.APDU;
import com.serotonin.bacnet4j.exception.BACnetException;
import com.serotonin.bacnet4j.npdu.NPDU;
import com.serotonin.bacnet4j.type.constructed.ServicesSupported;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Counts the messages that wait for the library's transport thread, whose own queue has no bound. A message
 * leaves when the transport takes its content out. This is where limits for each peer will stand.
 */
final class WaitingRoom {
    private static final int SEATS = 1000;

    private final AtomicInteger waiting = new AtomicInteger();

    boolean isFull() {
        return waiting.get() >= SEATS;
    }

    /** The same message, counted until it is taken. */
    NPDU seat(NPDU message) {
        waiting.incrementAndGet();
        return new Seated(message);
    }

    private final class Seated extends NPDU {
        private final AtomicBoolean left = new AtomicBoolean();

        Seated(NPDU message) {
            super(message.getFrom(), message.getLinkService(), message.getNetworkMessageData());
        }

        @Override
        public APDU getAPDU(ServicesSupported servicesSupported) throws BACnetException {
            if (left.compareAndSet(false, true)) {
                waiting.decrementAndGet();
            }
            return super.getAPDU(servicesSupported);
        }
    }
}
