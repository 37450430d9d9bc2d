package burnerbridge.simulator.manners;

import java.nio.ByteBuffer;
import java.util.List;

/** Exceptions in place of replies (Modbus Application Protocol V1.1b3, clause 7). */
final class Refusals {
    static final int ILLEGAL_DATA_ADDRESS = 2;
    static final int ACKNOWLEDGE = 5;
    static final int BUSY = 6;
    private static final int REQUEST_LENGTH = 5;
    private static final int LAST_THAT_READS = 4;
    private static final int QUANTITY_AT = 3;

    private Refusals() {}

    static Manners exception(int code) {
        return exchange -> List.of(exchange.refusal(code));
    }

    /** More than so many registers or bits at once are refused as if an address did not exist. */
    static Manners smallBlocks(int most) {
        return exchange -> List.of(
                quantity(exchange.request().pdu()) > most
                        ? exchange.refusal(ILLEGAL_DATA_ADDRESS)
                        : exchange.rightly());
    }

    private static int quantity(byte[] pdu) {
        return pdu.length == REQUEST_LENGTH && pdu[0] <= LAST_THAT_READS
                ? ByteBuffer.wrap(pdu).getShort(QUANTITY_AT) & 0xFFFF
                : 0;
    }
}
