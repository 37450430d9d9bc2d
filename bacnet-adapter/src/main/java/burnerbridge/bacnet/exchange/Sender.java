package burnerbridge.bacnet.exchange;

import burnerbridge.bacnet.edge.LimitedLog;
import com.serotonin.bacnet4j.apdu.APDU;
import com.serotonin.bacnet4j.exception.BACnetException;
import com.serotonin.bacnet4j.npdu.Network;

/** Sends single messages; what cannot be sent is told at a limited rate and is lost like any datagram. */
final class Sender {
    private final Network network;
    private final LimitedLog trouble;

    Sender(Network network, LimitedLog trouble) {
        this.network = network;
        this.trouble = trouble;
    }

    void send(Station to, APDU message) {
        try {
            network.sendAPDU(to.address(), to.router(), message, false);
        } catch (BACnetException e) {
            notSent(to.address().getDescription(), e);
        }
    }

    void notSent(String to, Exception e) {
        trouble.tell(e.getClass(), () -> "bacnet: nothing can be sent to " + to + ": " + e.getMessage());
    }
}
