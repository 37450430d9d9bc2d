package burnerbridge.bacnet.device;

import com.serotonin.bacnet4j.enums.MaxApduLength;
import com.serotonin.bacnet4j.npdu.NPDU;
import com.serotonin.bacnet4j.npdu.Network;
import com.serotonin.bacnet4j.npdu.NetworkIdentifier;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.primitive.OctetString;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import org.jspecify.annotations.Nullable;

/** Where there is nobody, for objects that are only looked at. */
final class NoNetwork extends Network {
    private static final OctetString NOBODY = new OctetString(new byte[6]);

    @Override
    public long getBytesOut() {
        return 0;
    }

    @Override
    public long getBytesIn() {
        return 0;
    }

    @Override
    public NetworkIdentifier getNetworkIdentifier() {
        return new NetworkIdentifier() {
            @Override
            public String getIdString() {
                return "none";
            }
        };
    }

    @Override
    public MaxApduLength getMaxApduLength() {
        return DeviceFace.LONGEST;
    }

    @Override
    public void terminate() {}

    @Override
    protected OctetString getBroadcastMAC() {
        return NOBODY;
    }

    @Override
    public Address[] getAllLocalAddresses() {
        return new Address[0];
    }

    @Override
    public Address getLoopbackAddress() {
        return new Address(NOBODY);
    }

    @Override
    public void sendNPDU(
            Address to, @Nullable OctetString router, ByteQueue npdu, boolean broadcast, boolean expectsReply) {}

    @Override
    protected NPDU handleIncomingDataImpl(ByteQueue queue, OctetString from) throws Exception {
        return parseNpduData(queue, from);
    }
}
