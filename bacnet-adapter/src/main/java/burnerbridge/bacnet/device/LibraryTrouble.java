package burnerbridge.bacnet.device;

import burnerbridge.bacnet.edge.LimitedLog;
import com.serotonin.bacnet4j.event.ExceptionListener;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import com.serotonin.bacnet4j.util.sero.ByteQueue;

/** Logs what the library could not deal with, at a limited rate and without stack traces by the thousand. */
final class LibraryTrouble implements ExceptionListener {
    private final LimitedLog log;

    LibraryTrouble(LimitedLog log) {
        this.log = log;
    }

    @Override
    public void unimplementedVendorService(UnsignedInteger vendorId, UnsignedInteger serviceNumber, ByteQueue queue) {
        log.tell(ByteQueue.class, () -> "bacnet: private service " + serviceNumber + " of vendor " + vendorId);
    }

    @Override
    public void receivedException(Exception e) {
        receivedThrowable(e);
    }

    @Override
    public void receivedThrowable(Throwable t) {
        log.tell(t.getClass(), () -> "bacnet: the library failed: " + t);
    }
}
