package burnerbridge.bacnet.outside;

import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.npdu.ip.IpNetwork;
import com.serotonin.bacnet4j.npdu.ip.IpNetworkBuilder;
import com.serotonin.bacnet4j.transport.DefaultTransport;

/**
 * A broadcast management device in a process of its own: the library's whole port, of which the bridge uses
 * nothing. On the address, broadcast address and port that it is given, with 24 bits of network.
 */
public final class LibraryManager {
    private static final int INSTANCE = 999;
    private static final int PREFIX = 24;

    private LibraryManager() {}

    public static void main(String[] arguments) throws Exception {
        IpNetwork network = new IpNetworkBuilder()
                .withLocalBindAddress(arguments[0])
                .withBroadcast(arguments[1], PREFIX)
                .withPort(Integer.parseInt(arguments[2]))
                .withReuseAddress(true)
                .build();
        network.enableBBMD();
        new LocalDevice(INSTANCE, new DefaultTransport(network)).initialize();
        Thread.currentThread().join();
    }
}
