package burnerbridge.bacnet.exchange;

import com.serotonin.bacnet4j.enums.MaxApduLength;
import com.serotonin.bacnet4j.npdu.NPDU;
import com.serotonin.bacnet4j.npdu.Network;
import com.serotonin.bacnet4j.npdu.NetworkIdentifier;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.primitive.OctetString;
import com.serotonin.bacnet4j.util.sero.ByteQueue;

/** A network without addresses, on which nothing is received; its heirs say what becomes of what is sent. */
public abstract class NamelessNetwork extends Network {
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
        return MaxApduLength.UP_TO_1476;
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
    protected NPDU handleIncomingDataImpl(ByteQueue queue, OctetString from) throws Exception {
        return parseNpduData(queue, from);
    }
}
