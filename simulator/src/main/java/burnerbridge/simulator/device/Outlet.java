package burnerbridge.simulator.device;

import java.io.IOException;
import java.time.Duration;

/** Where a device's bytes go. */
interface Outlet {

    void write(byte[] bytes) throws IOException;

    /** Ends what is connected. */
    void hangUp();

    /** Ends what is connected, and lets nobody connect for so long. */
    void refuse(Duration length);
}
