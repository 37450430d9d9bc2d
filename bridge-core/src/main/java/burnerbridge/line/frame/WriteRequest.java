package burnerbridge.line.frame;

import burnerbridge.line.ReadTerms;
import burnerbridge.line.Request;
import burnerbridge.line.WriteTemplate;
import burnerbridge.site.UnitId;
import burnerbridge.site.permit.Functions;
import java.util.Arrays;

/** A write that was encoded. What is in it counts for nothing at the last check, which looks at the bytes. */
public final class WriteRequest implements Request {
    /** Function, address, count (Modbus Application Protocol V1.1b3, 6.11 and 6.12). */
    private static final int REPLY_WITHOUT_VALUES = 5;

    private final WriteTemplate template;
    private final byte[] pdu;

    /** @param pdu what leaves for it, without unit and checksum */
    public WriteRequest(WriteTemplate template, byte[] pdu) {
        this.template = template;
        this.pdu = pdu.clone();
    }

    @Override
    public UnitId unit() {
        return template.unit();
    }

    @Override
    public int function() {
        return template.function();
    }

    /** It is sent once. */
    @Override
    public ReadTerms terms() {
        return new ReadTerms(
                template.terms().anyReplyUnit(), true, template.terms().pause());
    }

    public byte[] pdu() {
        return pdu.clone();
    }

    int requestBytes() {
        return pdu.length;
    }

    /** The whole data unit of the reply that it wants: all of the request, or all but the values. */
    byte[] reply() {
        boolean several = template.function() == Functions.COILS || template.function() == Functions.REGISTERS;
        return several ? Arrays.copyOf(pdu, REPLY_WITHOUT_VALUES) : pdu.clone();
    }

    /** For messages: {@code write of unit 1 holding-register wire 44 by function 6}. */
    @Override
    public String toString() {
        return "write of " + template;
    }
}
