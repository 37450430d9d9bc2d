package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;

/** The parameters of the reading services (ASHRAE 135, 15.5 and 15.7). */
final class ReadRequests {
    private static final int ALL = 8;
    private static final int OPTIONAL = 80;
    private static final int REQUIRED = 105;

    private ReadRequests() {}

    static void one(Parameters parameters) {
        parameters.objectId(0);
        reference(parameters, 1);
        parameters.end();
    }

    static void several(Parameters parameters) {
        do {
            parameters.objectId(0);
            parameters.open(1);
            do {
                severalReference(parameters);
            } while (parameters.more() && !parameters.nextCloses(1));
            parameters.close(1);
        } while (parameters.more());
    }

    private static void severalReference(Parameters parameters) {
        if (parameters.nextCloses(1)) {
            parameters.refuse(RejectReason.MISSING_REQUIRED_PARAMETER);
        }
        reference(parameters, 0);
    }

    private static void reference(Parameters parameters, int firstTag) {
        int property = parameters.property(firstTag);
        boolean indexed = parameters.arrayIndex(firstTag + 1).isPresent();
        if (indexed && (property == ALL || property == OPTIONAL || property == REQUIRED)) {
            parameters.refuse(RejectReason.INCONSISTENT_PARAMETERS);
        }
    }
}
