package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;
import java.util.OptionalLong;

/** The parameters of the reading services (ASHRAE 135, 15.5, 15.7 and 15.8). */
final class ReadRequests {
    private static final int ALL = 8;
    private static final int OPTIONAL = 80;
    private static final int REQUIRED = 105;

    private static final int BY_POSITION = 3;
    private static final int BY_NUMBER = 6;
    private static final int BY_TIME = 7;
    private static final int UNSIGNED = 2;
    private static final int SIGNED = 3;
    private static final int DATE = 10;
    private static final int TIME = 11;

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

    static void range(Parameters parameters) {
        parameters.objectId(0);
        int property = parameters.property(1);
        OptionalLong index = parameters.arrayIndex(2);
        if (isSpecial(property)) {
            parameters.refuse(RejectReason.INCONSISTENT_PARAMETERS);
        }
        if (index.isPresent() && index.getAsLong() == 0) {
            parameters.refuse(RejectReason.PARAMETER_OUT_OF_RANGE);
        }
        if (parameters.more()) {
            choice(parameters);
        }
        parameters.end();
    }

    /** By position, by sequence number or by time; each with a count that is not 0. */
    private static void choice(Parameters parameters) {
        int tag = parameters.next(BY_POSITION) ? BY_POSITION : parameters.next(BY_NUMBER) ? BY_NUMBER : BY_TIME;
        parameters.open(tag);
        if (tag == BY_TIME) {
            parameters.application(DATE, 4, 4);
            parameters.application(TIME, 4, 4);
        } else {
            parameters.application(UNSIGNED, 1, 4);
        }
        Octets count = parameters.application(SIGNED, 1, 2);
        if (count.length() > 0 && count.number() == 0) {
            parameters.refuse(RejectReason.PARAMETER_OUT_OF_RANGE);
        }
        parameters.close(tag);
    }

    private static boolean isSpecial(int property) {
        return property == ALL || property == OPTIONAL || property == REQUIRED;
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
        if (indexed && isSpecial(property)) {
            parameters.refuse(RejectReason.INCONSISTENT_PARAMETERS);
        }
    }
}
