package burnerbridge.simulator.manners;

import java.time.Duration;
import java.util.List;
import java.util.Random;

/** Connections that end. */
final class Connections {
    private Connections() {}

    static Manners hangUpBefore() {
        return exchange -> List.of(new Act.HangUp());
    }

    static Manners hangUpInside(Random dice) {
        return exchange -> {
            byte[] right = exchange.rightly().bytes();
            return List.of(new Act.Send(Bytes.part(right, 0, Bytes.inside(right, dice))), new Act.HangUp());
        };
    }

    static Manners hangUpAfter() {
        return exchange -> List.of(exchange.rightly(), new Act.HangUp());
    }

    /** As a device server does that ends its connections, while the line behind it does not know. */
    static Manners hangUpThenReply(int millis) {
        return exchange -> List.of(new Act.HangUp(), new Act.NotBefore(Duration.ofMillis(millis)), exchange.rightly());
    }

    static Manners refuse(int millis) {
        return exchange -> List.of(new Act.Refuse(Duration.ofMillis(millis)));
    }
}
