package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.Cursor;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Tag;
import org.jspecify.annotations.Nullable;

/**
 * Judges what answers us (ASHRAE 135, 20.1.4 to 20.1.9). The only confirmed request that we send is
 * ConfirmedCOVNotification, and the only segmented thing is a reply, so few replies can be meant for us.
 */
final class ReplyJudge {
    private static final int CONFIRMED_COV_NOTIFICATION = 1;
    private static final int SERVER = 0x01;

    private ReplyJudge() {}

    static ApduVerdict simpleAck(Octets apdu) {
        return passIf(apdu.length() == 3 && apdu.at(2) == CONFIRMED_COV_NOTIFICATION);
    }

    /** An acknowledgement of segments that we, the server, sent; a window of none would stall us. */
    static ApduVerdict segmentAck(Octets apdu) {
        return passIf(apdu.length() == 4 && (apdu.at(0) & SERVER) == 0 && apdu.at(3) >= 1 && apdu.at(3) <= 127);
    }

    static ApduVerdict error(Octets apdu) {
        if (apdu.length() < 3 || apdu.at(2) != CONFIRMED_COV_NOTIFICATION) {
            return passIf(false);
        }
        Cursor cursor = new Cursor(apdu.from(3));
        boolean errorClass = isEnumerated(Tag.read(cursor));
        boolean errorCode = isEnumerated(Tag.read(cursor));
        return passIf(errorClass && errorCode && !cursor.more());
    }

    /** Reject and Abort have the same shape. */
    static ApduVerdict refusal(Octets apdu) {
        return passIf(apdu.length() == 3);
    }

    private static boolean isEnumerated(@Nullable Tag tag) {
        return tag != null
                && !tag.context()
                && tag.number() == 9
                && tag.content().length() <= 2;
    }

    private static ApduVerdict passIf(boolean good) {
        return good ? ApduVerdict.PASS : new ApduVerdict.Drop(DropReason.UNEXPECTED_REPLY);
    }
}
