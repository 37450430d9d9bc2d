package burnerbridge.site.permit;

import java.util.List;

/**
 * Who may ask. A filter, not a proof: neither BACnet/IP nor a broker's topic says who is there.
 *
 * @param bacnet networks from which BACnet may ask; empty: BACnet may not
 * @param mqtt whether it may be asked for over MQTT
 */
public record Askers(List<AddressBlock> bacnet, boolean mqtt) {
    public Askers {
        bacnet = List.copyOf(bacnet);
    }
}
