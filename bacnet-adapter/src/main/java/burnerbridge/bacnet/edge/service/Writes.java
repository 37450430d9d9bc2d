package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.OctetWriter;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;
import burnerbridge.bacnet.edge.coding.Tag;
import burnerbridge.bacnet.edge.coding.Trouble;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Answers WriteProperty and WritePropertyMultiple (ASHRAE 135, 15.9 and 15.10), which never go further than here. The
 * Present_Value of an object to which the door leads is asked for there; everything else gets the error that the standard
 * has for it. Several go in order, and the first that is refused ends it: those before it stay.
 */
final class Writes {
    private static final int PRESENT_VALUE = 85;
    private static final int LOWEST_PRIORITY = 16;

    private final ObjectDirectory directory;
    private final WriteDoor door;
    private final LastAnswers answers;

    /**
     * A request whose tags are sound.
     *
     * @param apdu all of it
     * @param data its parameters
     */
    record Request(Peer from, int invokeId, Octets apdu, Octets data) {}

    /** One property that somebody asked to write. */
    private record Attempt(ObjectId object, int property, OptionalLong index, List<Tag> value, int priority) {}

    Writes(ObjectDirectory directory, WriteDoor door, LastAnswers answers) {
        this.directory = directory;
        this.door = door;
        this.answers = answers;
    }

    ApduVerdict answer(WriteService service, Request request) {
        Optional<ApduVerdict.Answer> before = answers.to(request.from(), request.invokeId(), request.apdu());
        if (before.isPresent()) {
            return before.get();
        }
        Parameters parameters = new Parameters(request.data());
        List<Attempt> attempts =
                service == WriteService.WRITE_PROPERTY ? List.of(one(parameters)) : several(parameters);
        Optional<RejectReason> objection = parameters.objection();
        if (objection.isPresent()) {
            return ApduVerdict.reject(request.invokeId(), objection.get());
        }
        ApduVerdict.Answer answer = done(service, request, attempts);
        if (attempts.stream().anyMatch(this::isAsk)) {
            answers.keep(request.from(), request.invokeId(), request.apdu(), answer);
        }
        return answer;
    }

    private boolean isAsk(Attempt attempt) {
        return attempt.property() == PRESENT_VALUE && door.leadsTo(attempt.object());
    }

    private ApduVerdict.Answer done(WriteService service, Request request, List<Attempt> attempts) {
        for (Attempt attempt : attempts) {
            Optional<Trouble> trouble = troubleWith(attempt, request.from());
            if (trouble.isPresent()) {
                return service == WriteService.WRITE_PROPERTY
                        ? ApduVerdict.error(request.invokeId(), service.choice(), trouble.get())
                        : ApduVerdict.error(request.invokeId(), service.choice(), multipleForm(trouble.get(), attempt));
            }
        }
        return ApduVerdict.simpleAck(request.invokeId(), service.choice());
    }

    private static Attempt one(Parameters parameters) {
        ObjectId object = parameters.objectId(0);
        int property = parameters.property(1);
        OptionalLong index = parameters.arrayIndex(2);
        List<Tag> value = parameters.anything(3);
        int priority = priority(parameters, 4);
        parameters.end();
        return new Attempt(object, property, index, value, priority);
    }

    /** The whole list is read before anything of it is asked for. */
    private static List<Attempt> several(Parameters parameters) {
        List<Attempt> attempts = new ArrayList<>();
        do {
            listOfOneObject(parameters, attempts);
        } while (parameters.more());
        return attempts;
    }

    private static void listOfOneObject(Parameters parameters, List<Attempt> attempts) {
        ObjectId object = parameters.objectId(0);
        parameters.open(1);
        if (parameters.nextCloses(1)) {
            parameters.refuse(RejectReason.MISSING_REQUIRED_PARAMETER);
        }
        do {
            attempts.add(element(parameters, object));
        } while (parameters.more() && !parameters.nextCloses(1));
        parameters.close(1);
    }

    private static Attempt element(Parameters parameters, ObjectId object) {
        int property = parameters.property(0);
        OptionalLong index = parameters.arrayIndex(1);
        List<Tag> value = parameters.anything(2);
        int priority = priority(parameters, 3);
        return new Attempt(object, property, index, value, priority);
    }

    /** Of a commandable property that is written without one, the lowest (19.2; from memory). */
    private static int priority(Parameters parameters, int tag) {
        if (!parameters.next(tag)) {
            return LOWEST_PRIORITY;
        }
        long priority = parameters.unsigned(tag, LOWEST_PRIORITY);
        if (priority == 0) {
            parameters.refuse(RejectReason.PARAMETER_OUT_OF_RANGE);
        }
        return (int) priority;
    }

    private Optional<Trouble> troubleWith(Attempt attempt, Peer from) {
        if (!directory.hasObject(attempt.object())) {
            return Optional.of(Trouble.UNKNOWN_OBJECT);
        }
        if (!directory.hasProperty(attempt.object(), attempt.property())) {
            return Optional.of(Trouble.UNKNOWN_PROPERTY);
        }
        if (attempt.index().isPresent() && !directory.isArray(attempt.object(), attempt.property())) {
            return Optional.of(Trouble.PROPERTY_IS_NOT_AN_ARRAY);
        }
        if (!isAsk(attempt)) {
            return Optional.of(Trouble.WRITE_ACCESS_DENIED);
        }
        return door.ask(new WriteDoor.Wish(attempt.object(), attempt.value(), attempt.priority()), from);
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
