package burnerbridge.simulator.manners;

import burnerbridge.simulator.frame.Frame;
import java.nio.ByteBuffer;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Two words of one value that are of different moments, in one transaction or in two. Values begin at even
 * addresses; the register behind shows what it held when it was last asked for.
 */
final class TornPair implements Manners {
    private static final int FIRST_OF_REGISTERS = 3;
    private static final int LAST_OF_REGISTERS = 4;
    private static final int ADDRESS_AT = 1;
    private static final int DATA_AT = 2;

    private record Cell(int unit, int function, int address) {}

    private final Map<Cell, Short> before = new HashMap<>();

    @Override
    public List<Act> toward(Exchange exchange) {
        return List.of(
                exchange.isRefused()
                                || exchange.request().function() < FIRST_OF_REGISTERS
                                || exchange.request().function() > LAST_OF_REGISTERS
                        ? exchange.rightly()
                        : exchange.send(torn(exchange.request(), exchange.reply())));
    }

    private Frame torn(Frame request, Frame reply) {
        int first = ByteBuffer.wrap(request.pdu()).getShort(ADDRESS_AT) & 0xFFFF;
        ByteBuffer pdu = ByteBuffer.wrap(reply.pdu().clone());
        for (int at = DATA_AT; at + 1 < pdu.capacity(); at += 2) {
            int address = first + (at - DATA_AT) / 2;
            short now = pdu.getShort(at);
            Short then = before.put(new Cell(request.unit(), request.function(), address), now);
            if (address % 2 == 1 && then != null) {
                pdu.putShort(at, then);
            }
        }
        return reply.withPdu(pdu.array());
    }
}
