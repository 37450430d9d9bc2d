package burnerbridge.bacnet.device;

import burnerbridge.bacnet.exchange.NamelessNetwork;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.primitive.OctetString;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import org.jspecify.annotations.Nullable;

/** Where there is nobody, for objects that are only looked at. */
final class NoNetwork extends NamelessNetwork {

    @Override
    public void sendNPDU(
            Address to, @Nullable OctetString router, ByteQueue npdu, boolean broadcast, boolean expectsReply) {}
}
