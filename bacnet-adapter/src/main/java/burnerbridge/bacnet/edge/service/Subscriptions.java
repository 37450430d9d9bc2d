package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;
import burnerbridge.bacnet.edge.coding.Trouble;

/**
 * The parameters of SubscribeCOV and SubscribeCOVProperty (ASHRAE 135, 13.14 and 13.15). A lifetime is 1 to
 * 28800 s, which is what the standard asks for at least; one without end is refused unless the site allows it,
 * since nobody would ever clear it away.
 */
final class Subscriptions {
    private static final long LONGEST_LIFETIME = 28_800;

    private final boolean endless;

    /** @param endless whether a subscription may be without end */
    Subscriptions(boolean endless) {
        this.endless = endless;
    }

    /** What both services begin with. */
    private record Head(boolean withConfirmed, long lifetime) {}

    ApduVerdict judge(int invokeId, Parameters parameters) {
        Head head = head(parameters);
        parameters.end();
        return verdict(invokeId, TakenService.SUBSCRIBE_COV, head, parameters);
    }

    ApduVerdict judgeOfProperty(int invokeId, Parameters parameters) {
        Head head = head(parameters);
        parameters.open(4);
        parameters.property(0);
        parameters.arrayIndex(1);
        parameters.close(4);
        if (parameters.next(5)) {
            increment(parameters);
        }
        parameters.end();
        return verdict(invokeId, TakenService.SUBSCRIBE_COV_PROPERTY, head, parameters);
    }

    private static Head head(Parameters parameters) {
        parameters.unsigned(0, 0xFFFFFFFFL);
        parameters.objectId(1);
        boolean withConfirmed = parameters.next(2);
        if (withConfirmed) {
            parameters.bool(2);
        }
        boolean withLifetime = parameters.next(3);
        long lifetime = withLifetime ? parameters.unsigned(3, 0xFFFFFFFFL) : 0;
        if (withLifetime && !withConfirmed) {
            parameters.refuse(RejectReason.MISSING_REQUIRED_PARAMETER);
        }
        return new Head(withConfirmed, lifetime);
    }

    /** A REAL that is a number and not negative. */
    private static void increment(Parameters parameters) {
        Octets real = parameters.primitive(5, 4, 4);
        float value = real.length() == 0 ? 0 : Float.intBitsToFloat((int) real.number());
        if (!(value >= 0) || Float.isInfinite(value)) {
            parameters.refuse(RejectReason.PARAMETER_OUT_OF_RANGE);
        }
    }

    private ApduVerdict verdict(int invokeId, TakenService service, Head head, Parameters parameters) {
        boolean fine = !head.withConfirmed() || isGiven(head.lifetime());
        if (!fine && parameters.objection().isEmpty()) {
            return ApduVerdict.error(invokeId, service.choice(), Trouble.LIFETIME_OUT_OF_RANGE);
        }
        return ConfirmedJudge.passUnlessObjected(invokeId, parameters);
    }

    private boolean isGiven(long lifetime) {
        return lifetime == 0 ? endless : lifetime <= LONGEST_LIFETIME;
    }
}
