package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;
import burnerbridge.bacnet.edge.coding.Trouble;

/**
 * The parameters of SubscribeCOV (ASHRAE 135, 13.14). A lifetime is 1 to 28800 s, which is what the
 * standard asks for at least; one without end is refused, since nobody would ever clear it away.
 */
final class Subscriptions {
    private static final long LONGEST_LIFETIME = 28_800;

    private Subscriptions() {}

    static ApduVerdict judge(int invokeId, Parameters parameters) {
        parameters.unsigned(0, 0xFFFFFFFFL);
        parameters.objectId(1);
        boolean withConfirmed = parameters.next(2);
        if (withConfirmed) {
            parameters.bool(2);
        }
        boolean withLifetime = parameters.next(3);
        long lifetime = withLifetime ? parameters.unsigned(3, 0xFFFFFFFFL) : 0;
        parameters.end();
        if (withLifetime && !withConfirmed) {
            parameters.refuse(RejectReason.MISSING_REQUIRED_PARAMETER);
        }
        boolean tooLong = withConfirmed && (lifetime == 0 || lifetime > LONGEST_LIFETIME);
        if (tooLong && parameters.objection().isEmpty()) {
            return ApduVerdict.error(invokeId, TakenService.SUBSCRIBE_COV.choice(), Trouble.LIFETIME_OUT_OF_RANGE);
        }
        return ConfirmedJudge.passUnlessObjected(invokeId, parameters);
    }
}
