package burnerbridge.bacnet.edge.watch;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.InterfaceAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.util.ArrayList;
import java.util.List;

/**
 * An IPv4 address of this machine.
 *
 * @param prefix how many bits of it are those of its network, 0 to 32
 * @param device the network interface that has it
 * @param up whether that interface is switched on and has a link, as far as the system knows
 */
record LocalAddress(InetAddress address, int prefix, String device, boolean up) {

    /** Where the addresses of this machine are looked up; a test has its own. */
    @FunctionalInterface
    interface Source {
        List<LocalAddress> all();
    }

    /** Asks the system, which takes well under a millisecond; what cannot be told is left out. */
    static List<LocalAddress> ofThisMachine() {
        List<LocalAddress> found = new ArrayList<>();
        try {
            for (NetworkInterface device : NetworkInterface.networkInterfaces().toList()) {
                boolean up = device.isUp();
                for (InterfaceAddress address : device.getInterfaceAddresses()) {
                    if (address.getAddress() instanceof Inet4Address own) {
                        found.add(new LocalAddress(own, address.getNetworkPrefixLength(), device.getName(), up));
                    }
                }
            }
        } catch (SocketException e) {
            return found;
        }
        return found;
    }

    /** Whether another address is of the same network. */
    boolean isNeighbour(InetAddress other) {
        byte[] own = address.getAddress();
        byte[] others = other.getAddress();
        for (int bit = 0; bit < prefix; bit++) {
            int mask = 0x80 >> (bit & 7);
            if (own.length != others.length || ((own[bit >> 3] ^ others[bit >> 3]) & mask) != 0) {
                return false;
            }
        }
        return own.length == others.length;
    }

    /** As people write it: {@code 10.77.0.1/24}. */
    String text() {
        return address.getHostAddress() + "/" + prefix;
    }
}
