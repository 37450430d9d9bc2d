package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.OctetWriter;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.RejectReason;
import burnerbridge.bacnet.edge.coding.Trouble;

/** What becomes of the application layer's part of a datagram. */
public sealed interface ApduVerdict {
    ApduVerdict PASS = new Pass();

    record Pass() implements ApduVerdict {}

    /** A segment of a request. */
    record Part() implements ApduVerdict {}

    record Drop(DropReason reason) implements ApduVerdict {}

    /** An I-Am with our own device instance; whose it is the layers below know. */
    record OwnInstance() implements ApduVerdict {}

    /** The application layer's octets of the answer. */
    record Answer(Octets apdu, AnswerKind kind) implements ApduVerdict {}

    /** SimpleACK-PDU (ASHRAE 135, 20.1.4). */
    static Answer simpleAck(int invokeId, int service) {
        return new Answer(Octets.of(0x20, invokeId, service), AnswerKind.SIMPLE_ACK);
    }

    /** Error-PDU (20.1.7). */
    static Answer error(int invokeId, int service, Trouble trouble) {
        return error(invokeId, service, errorPair(new OctetWriter(), trouble).done());
    }

    /** Error-PDU of a service that has its own form of error. */
    static Answer error(int invokeId, int service, Octets form) {
        Octets apdu =
                new OctetWriter().u8(0x50).u8(invokeId).u8(service).octets(form).done();
        return new Answer(apdu, AnswerKind.ERROR);
    }

    /** Error class and code as two application enumerations. */
    static OctetWriter errorPair(OctetWriter writer, Trouble trouble) {
        return writer.u8(0x91).u8(trouble.errorClass()).u8(0x91).u8(trouble.code());
    }

    /** Reject-PDU (20.1.8). */
    static Answer reject(int invokeId, RejectReason reason) {
        return new Answer(Octets.of(0x60, invokeId, reason.number()), AnswerKind.REJECT);
    }

    /** Abort-PDU, sent by a server (20.1.9). */
    static ApduVerdict abort(int invokeId, int reason) {
        return new Answer(Octets.of(0x71, invokeId, reason), AnswerKind.ABORT);
    }
}
