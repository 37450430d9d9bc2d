package burnerbridge.simulator.manners;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** The right bytes, at the wrong time or the wrong number of times. */
final class Timing {
    private Timing() {}

    static Manners silent() {
        return exchange -> List.of();
    }

    static Manners late(int millis) {
        return exchange -> List.of(new Act.NotBefore(Duration.ofMillis(millis)), exchange.rightly());
    }

    /** Only the beginning comes. */
    static Manners cutOff(Random dice) {
        return exchange -> {
            byte[] right = exchange.rightly().bytes();
            return List.of(new Act.Send(Bytes.part(right, 0, Bytes.inside(right, dice))));
        };
    }

    /** Byte for byte, with a pause before each but the first. */
    static Manners dribbled(int millis) {
        return exchange -> {
            List<Act> acts = new ArrayList<>();
            for (byte one : exchange.rightly().bytes()) {
                if (!acts.isEmpty()) {
                    acts.add(new Act.Pause(Duration.ofMillis(millis)));
                }
                acts.add(new Act.Send(new byte[] {one}));
            }
            return acts;
        };
    }

    /** The reply twice, the second right behind the first. */
    static Manners twice() {
        return exchange -> {
            byte[] right = exchange.rightly().bytes();
            return List.of(new Act.Send(Bytes.joined(right, right)));
        };
    }

    /**
     * Every reply waits for the request after its own, for so many requests; the last of them brings all.
     *
     * @param longest a reply that has waited for longer is lost
     */
    static Manners oneBehind(int requests, Duration longest) {
        List<Exchange> held = new ArrayList<>();
        int[] left = {requests};
        return exchange -> {
            List<Act> acts = new ArrayList<>();
            held.removeIf(one -> one.age().compareTo(longest) > 0);
            held.forEach(one -> append(acts, one));
            held.clear();
            if (--left[0] > 0) {
                held.add(exchange);
            } else {
                append(acts, exchange);
            }
            return acts;
        };
    }

    private static void append(List<Act> acts, Exchange exchange) {
        if (!acts.isEmpty()) {
            acts.add(new Act.Pause(exchange.silence()));
        }
        acts.add(exchange.rightly());
    }
}
