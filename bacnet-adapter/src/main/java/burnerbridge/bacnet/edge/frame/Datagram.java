package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.Octets;
import java.net.InetSocketAddress;

/**
 * What came in.
 *
 * @param sender where it came from, as UDP has it
 * @param toAll whether it came to the broadcast address
 */
public record Datagram(Octets octets, InetSocketAddress sender, boolean toAll) {}
