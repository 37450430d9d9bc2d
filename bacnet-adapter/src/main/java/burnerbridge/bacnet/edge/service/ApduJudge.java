package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.model.BridgeClock;

/** Judges the application layer's part by its type (ASHRAE 135, 20.1). */
public final class ApduJudge {
    /** What we accept at most, as the device object says. */
    private static final int LONGEST = 1476;

    private final ConfirmedJudge confirmed;
    private final UnconfirmedJudge unconfirmed;

    public ApduJudge(ObjectDirectory directory, WriteDoor door, BridgeClock clock, boolean endless) {
        this.confirmed =
                new ConfirmedJudge(new Writes(directory, door, new LastAnswers(clock)), new Subscriptions(endless));
        this.unconfirmed = new UnconfirmedJudge(directory);
    }

    public static int type(Octets apdu) {
        return apdu.at(0) >> 4;
    }

    /** A confirmed request that was put together, and so may be longer than one message. */
    public ApduVerdict judgeWhole(Octets apdu, Peer from) {
        return confirmed.judge(apdu, from);
    }

    public ApduVerdict judge(Octets apdu, Peer from, boolean toAll) {
        if (apdu.length() < 1 || apdu.length() > LONGEST) {
            return new ApduVerdict.Drop(DropReason.MESSAGE_LENGTH);
        }
        int type = type(apdu);
        if (toAll && type != 1) {
            // 5.4.5: what was broadcast and is not an unconfirmed request is ignored.
            return new ApduVerdict.Drop(DropReason.CONFIRMED_BROADCAST);
        }
        return switch (type) {
            case 0 -> confirmed.judge(apdu, from);
            case 1 -> unconfirmed.judge(apdu, toAll);
            case 2 -> ReplyJudge.simpleAck(apdu);
            case 3 -> new ApduVerdict.Drop(DropReason.UNEXPECTED_REPLY);
            case 4 -> ReplyJudge.segmentAck(apdu);
            case 5 -> ReplyJudge.error(apdu);
            case 6, 7 -> ReplyJudge.refusal(apdu);
            default -> new ApduVerdict.Drop(DropReason.MESSAGE_TYPE);
        };
    }
}
