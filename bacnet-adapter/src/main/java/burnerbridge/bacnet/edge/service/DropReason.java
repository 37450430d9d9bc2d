package burnerbridge.bacnet.edge.service;

import java.util.Locale;

/** Why a datagram went no further and got no answer. */
public enum DropReason {
    NOT_BACNET_IP(false),
    LINK_LENGTH(false),
    LINK_FUNCTION(false),
    /** The answer to a function that we did not ask for. */
    LINK_RESULT(true),
    FORWARDED_ADDRESS(false),
    NETWORK_VERSION(false),
    NETWORK_CONTROL(false),
    NETWORK_LENGTH(false),
    NETWORK_ADDRESS(false),
    HOP_COUNT(false),
    /** For another network; we route nothing. */
    OTHER_NETWORK(true),
    /** A message between routers. */
    NETWORK_MESSAGE(true),
    MESSAGE_TYPE(false),
    MESSAGE_LENGTH(false),
    TAGS(false),
    PARAMETERS(false),
    /** An unconfirmed service that we do not take, such as everybody else's I-Am. */
    SERVICE_NOT_TAKEN(true),
    /** An I-Am with our own device instance, which is told elsewhere where it is another device's. */
    OWN_INSTANCE(true),
    /** A Who-Is or Who-Has for other devices than ours. */
    OTHER_DEVICE(true),
    /** A confirmed request to everybody, which the standard tells to ignore. */
    CONFIRMED_BROADCAST(false),
    /** A reply that nothing here can have asked for. */
    UNEXPECTED_REPLY(false),
    /** A segment of a request whose first one never came. */
    SEGMENT(false),
    /** Its host sends more than anybody needs to. */
    FLOOD(false),
    /** More requests of its station, or of all, wait than may. */
    BUSY(false);

    private final boolean ordinary;

    DropReason(boolean ordinary) {
        this.ordinary = ordinary;
    }

    /** Whether this happens on any healthy network and so deserves no line in the log. */
    public boolean isOrdinary() {
        return ordinary;
    }

    /** The word used in messages: {@code link-length}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
