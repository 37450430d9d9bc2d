package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.OctetWriter;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;
import burnerbridge.bacnet.edge.coding.Trouble;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Answers WriteProperty and WritePropertyMultiple, which never go further than here: each gets the error
 * that the standard has for it, and nothing is ever written (ASHRAE 135, 15.9 and 15.10).
 */
final class WriteRefusal {
    private static final int WRITE_PROPERTY = 15;
    private static final int WRITE_PROPERTY_MULTIPLE = 16;
    private static final int LOWEST_PRIORITY = 16;

    private final ObjectDirectory directory;

    /** One property that somebody asked to write. */
    private record Attempt(ObjectId object, int property, OptionalLong index) {}

    WriteRefusal(ObjectDirectory directory) {
        this.directory = directory;
    }

    boolean isFor(int choice) {
        return choice == WRITE_PROPERTY || choice == WRITE_PROPERTY_MULTIPLE;
    }

    ApduVerdict refuse(int invokeId, int choice, Octets soundData) {
        Parameters parameters = new Parameters(soundData);
        Attempt attempt = choice == WRITE_PROPERTY ? one(parameters) : firstOfSeveral(parameters);
        Optional<RejectReason> objection = parameters.objection();
        if (objection.isPresent()) {
            return ApduVerdict.reject(invokeId, objection.get());
        }
        Trouble trouble = troubleWith(attempt);
        return choice == WRITE_PROPERTY
                ? ApduVerdict.error(invokeId, choice, trouble)
                : ApduVerdict.error(invokeId, choice, multipleForm(trouble, attempt));
    }

    private static Attempt one(Parameters parameters) {
        ObjectId object = parameters.objectId(0);
        int property = parameters.property(1);
        OptionalLong index = parameters.arrayIndex(2);
        parameters.anything(3);
        priority(parameters, 4);
        parameters.end();
        return new Attempt(object, property, index);
    }

    /** Checks the whole list and gives its first attempt, which is the one that fails. */
    private static Attempt firstOfSeveral(Parameters parameters) {
        Attempt first = listOfOneObject(parameters);
        while (parameters.more()) {
            listOfOneObject(parameters);
        }
        return first;
    }

    private static Attempt listOfOneObject(Parameters parameters) {
        ObjectId object = parameters.objectId(0);
        parameters.open(1);
        if (parameters.nextCloses(1)) {
            parameters.refuse(RejectReason.MISSING_REQUIRED_PARAMETER);
        }
        Attempt first = element(parameters, object);
        while (parameters.more() && !parameters.nextCloses(1)) {
            element(parameters, object);
        }
        parameters.close(1);
        return first;
    }

    private static Attempt element(Parameters parameters, ObjectId object) {
        int property = parameters.property(0);
        OptionalLong index = parameters.arrayIndex(1);
        parameters.anything(2);
        priority(parameters, 3);
        return new Attempt(object, property, index);
    }

    private static void priority(Parameters parameters, int tag) {
        if (parameters.next(tag) && parameters.unsigned(tag, LOWEST_PRIORITY) == 0) {
            parameters.refuse(RejectReason.PARAMETER_OUT_OF_RANGE);
        }
    }

    private Trouble troubleWith(Attempt attempt) {
        if (!directory.hasObject(attempt.object())) {
            return Trouble.UNKNOWN_OBJECT;
        }
        if (!directory.hasProperty(attempt.object(), attempt.property())) {
            return Trouble.UNKNOWN_PROPERTY;
        }
        if (attempt.index().isPresent() && !directory.isArray(attempt.object(), attempt.property())) {
            return Trouble.PROPERTY_IS_NOT_AN_ARRAY;
        }
        return Trouble.WRITE_ACCESS_DENIED;
    }

    /** WritePropertyMultiple-Error: the error, and where it was met (clause 21). */
    private static Octets multipleForm(Trouble trouble, Attempt attempt) {
        OctetWriter form = ApduVerdict.errorPair(new OctetWriter().u8(0x0E), trouble)
                .u8(0x0F)
                .u8(0x1E)
                .u8(0x0C)
                .u32(attempt.object().number())
                .contextUnsigned(1, attempt.property());
        attempt.index().ifPresent(index -> form.contextUnsigned(2, index));
        return form.u8(0x1F).done();
    }
}
