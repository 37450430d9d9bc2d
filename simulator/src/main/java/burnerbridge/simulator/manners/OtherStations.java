package burnerbridge.simulator.manners;

import burnerbridge.simulator.frame.Frame;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.Function;

/** What others say on the same line: a second unit of the same identifier, and a second master. */
final class OtherStations {
    private static final int READ_LENGTH = 5;
    private static final int EXCEPTION = 0x80;
    /** Where the address stands in a request to read. */
    private static final int ADDRESS_AT = 1;

    private OtherStations() {}

    /** Two units of one identifier answer at the same time: their bits meet, or their bytes come in turn. */
    static Manners merged(Random dice) {
        return exchange -> {
            byte[] one = exchange.rightly().bytes();
            byte[] other = exchange.bytes(ofTheOther(exchange, dice));
            return List.of(
                    new Act.Send(dice.nextBoolean() ? Bytes.overlaid(one, other) : Bytes.interleaved(one, other)));
        };
    }

    /** Two units of one identifier answer one right behind the other, the right one first. */
    static Manners inTurn(Random dice) {
        return exchange -> List.of(
                new Act.Send(Bytes.joined(exchange.rightly().bytes(), exchange.bytes(ofTheOther(exchange, dice)))));
    }

    /** The same shape with other data. */
    private static Frame ofTheOther(Exchange exchange, Random dice) {
        byte[] pdu = exchange.reply().pdu().clone();
        for (int i = exchange.isRefused() ? pdu.length : 2; i < pdu.length; i++) {
            pdu[i] ^= (byte) (1 + dice.nextInt(255));
        }
        return exchange.reply().withPdu(pdu);
    }

    /** Where a second master's request and the reply to it stand. */
    enum Place {
        BEFORE,
        BETWEEN,
        INSTEAD
    }

    /**
     * A second master asks a unit, and is answered.
     *
     * @param asks what it asks, when this request has come
     */
    static Manners secondMaster(Place place, Function<Exchange, Frame> asks) {
        return exchange -> {
            Frame foreign = asks.apply(exchange);
            Optional<Frame> answer = exchange.replyTo(foreign);
            List<Act> acts = new ArrayList<>();
            switch (place) {
                case BEFORE -> then(exchange, acts, Optional.of(foreign), answer, Optional.of(exchange.reply()));
                case BETWEEN -> then(exchange, acts, Optional.of(foreign), Optional.of(exchange.reply()), answer);
                case INSTEAD -> then(exchange, acts, Optional.of(foreign), answer);
            }
            return acts;
        };
    }

    @SafeVarargs
    private static void then(Exchange exchange, List<Act> acts, Optional<Frame>... frames) {
        for (Optional<Frame> frame : frames) {
            if (frame.isPresent()) {
                if (!acts.isEmpty()) {
                    acts.add(new Act.Pause(exchange.silence()));
                }
                acts.add(exchange.send(frame.get()));
            }
        }
    }

    /**
     * A read of the same unit, near what was asked for: of 3, 5, 7 or 9 registers, or of as many bytes of
     * bits. Never one of which the request or the reply has the function and length of the right reply, or
     * which is refused by the same function: on a line whose replies do not say whose they are, those could
     * not be told from it.
     */
    static Frame anotherRead(Exchange exchange, Random dice) {
        Frame another = randomRead(exchange, dice);
        while (couldBeTheReply(exchange, another)
                || exchange.replyTo(another)
                        .filter(reply -> couldBeTheReply(exchange, reply))
                        .isPresent()) {
            another = randomRead(exchange, dice);
        }
        return another;
    }

    private static boolean couldBeTheReply(Exchange exchange, Frame other) {
        return other.function() == (exchange.request().function() | EXCEPTION)
                || other.function() == exchange.request().function()
                        && other.pdu().length == exchange.reply().pdu().length;
    }

    private static Frame randomRead(Exchange exchange, Random dice) {
        byte[] asked = exchange.request().pdu();
        int address = asked.length == READ_LENGTH ? ByteBuffer.wrap(asked).getShort(ADDRESS_AT) & 0xFFFF : 0;
        int function = 1 + dice.nextInt(4);
        int count = 3 + 2 * dice.nextInt(4);
        ByteBuffer pdu = ByteBuffer.allocate(READ_LENGTH)
                .put((byte) function)
                .putShort((short) Math.max(0, address - 8 + dice.nextInt(17)))
                .putShort((short) (function <= 2 ? 8 * count : count));
        return exchange.request().withPdu(pdu.array());
    }
}
