package burnerbridge.bacnet.edge.watch;

import burnerbridge.bacnet.edge.coding.OctetWriter;
import burnerbridge.bacnet.edge.coding.Octets;
import java.time.Duration;
import java.util.Optional;

/**
 * Asks now and then who else has our device instance: by a Who-Is that only such a device answers (ASHRAE 135, 16.10).
 * The pause hangs on the instance, so that bridges that were switched on together do not ask together. Safe for any
 * number of threads.
 */
final class Probe {
    static final Duration PAUSE = Duration.ofMinutes(15);
    private static final int SPREAD = 60;
    private static final int UNCONFIRMED_REQUEST = 0x10;
    private static final int WHO_IS = 8;

    private int instance = -1;
    private long due;

    /** The question, to be asked at once; from now on it is due again and again. */
    synchronized Octets begin(int ownInstance, long now) {
        instance = ownInstance;
        due = now + PAUSE.plusSeconds(ownInstance % SPREAD).toNanos();
        return new OctetWriter()
                .u8(UNCONFIRMED_REQUEST)
                .u8(WHO_IS)
                .contextUnsigned(0, ownInstance)
                .contextUnsigned(1, ownInstance)
                .done();
    }

    /** The question, where its time has come. */
    synchronized Optional<Octets> due(long now) {
        return instance >= 0 && now - due >= 0 ? Optional.of(begin(instance, now)) : Optional.empty();
    }
}
