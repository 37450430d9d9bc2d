package burnerbridge.mqtt;

import java.net.URI;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Which broker comes next, and after what pause. Each failure moves on to the next broker; each round
 * through all of them doubles the pause, from one second to thirty.
 */
final class Rota {
    static final long FIRST_PAUSE = TimeUnit.SECONDS.toNanos(1);
    static final long LONGEST_PAUSE = TimeUnit.SECONDS.toNanos(30);
    private final List<URI> addresses;
    private int turn;
    private int failures;
    private long pause = FIRST_PAUSE;

    Rota(List<URI> addresses) {
        if (addresses.isEmpty()) {
            throw new IllegalArgumentException("there must be a broker");
        }
        this.addresses = List.copyOf(addresses);
    }

    /** An address for people, without a user or password that may stand in it. */
    static String text(URI address) {
        String port = address.getPort() == -1 ? "" : ":" + address.getPort();
        return address.getScheme() + "://" + address.getHost() + port;
    }

    URI current() {
        return addresses.get(turn);
    }

    long pauseAfterFailure() {
        long now = pause;
        turn = (turn + 1) % addresses.size();
        failures++;
        if (failures % addresses.size() == 0) {
            pause = Math.min(2 * pause, LONGEST_PAUSE);
        }
        return now;
    }

    /** A broker that held for long gets the first chance again, and the pauses begin anew. */
    long pauseAfterLoss() {
        pause = FIRST_PAUSE;
        failures = 0;
        return FIRST_PAUSE;
    }
}
