package burnerbridge.simulator.manners;

import java.util.List;
import java.util.Random;

/** What a wire adds to the right reply or takes from it. */
final class Disturbances {
    private static final int MOST_NOISE = 9;

    private Disturbances() {}

    static Manners noiseBefore(Random dice) {
        return exchange -> List.of(
                new Act.Send(Bytes.joined(noise(dice), exchange.rightly().bytes())));
    }

    static Manners noiseAfter(Random dice) {
        return exchange -> List.of(new Act.Send(Bytes.joined(exchange.rightly().bytes(), noise(dice))));
    }

    /** Bytes are put in, or bytes that are there become others. */
    static Manners noiseInside(Random dice) {
        return exchange -> {
            byte[] right = exchange.rightly().bytes();
            int at = Bytes.inside(right, dice);
            byte[] noisy = dice.nextBoolean()
                    ? Bytes.joined(Bytes.part(right, 0, at), noise(dice), Bytes.part(right, at, right.length))
                    : Bytes.changed(right, at, 1 + dice.nextInt(255));
            return List.of(new Act.Send(noisy));
        };
    }

    private static byte[] noise(Random dice) {
        return Bytes.random(dice, 1, MOST_NOISE);
    }

    /** As where the transmitter is switched on too late. */
    static Manners firstByteLost() {
        return exchange -> {
            byte[] right = exchange.rightly().bytes();
            return List.of(new Act.Send(Bytes.part(right, 1, right.length)));
        };
    }

    /** The request comes back before its reply, as from an adapter that hears itself. */
    static Manners echoFirst() {
        return exchange -> List.of(new Act.Send(Bytes.joined(
                exchange.bytes(exchange.request()), exchange.rightly().bytes())));
    }

    /** The request comes back and nothing else. */
    static Manners echoOnly() {
        return exchange -> List.of(exchange.send(exchange.request()));
    }
}
