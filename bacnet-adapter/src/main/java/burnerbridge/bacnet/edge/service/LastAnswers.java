package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.model.BridgeClock;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * The last answer to each number of a station's requests, so that a request that it sends again, since the answer was lost,
 * is answered and not done again: what others have asked for meanwhile stands. A station that gives the same number to another
 * request has done with the one before. Bounded: of more than it holds the oldest is forgotten first. Safe for any number of
 * threads.
 */
final class LastAnswers {
    /** A station's time-out times its tries: 3 s and 3 retries are usual (ASHRAE 135, 12.11, from memory). */
    private static final long MEMORY = Duration.ofSeconds(12).toNanos();

    private static final int MOST = 10_000;

    private final BridgeClock clock;
    private final Map<Key, Given> answers = new LinkedHashMap<>();

    private record Key(Peer from, int invokeId) {}

    /** A digest of the request, since it may be long. */
    private record Given(Octets digest, ApduVerdict.Answer answer, long until) {}

    LastAnswers(BridgeClock clock) {
        this.clock = clock;
    }

    /** What was answered to the very same request, to the octet. */
    synchronized Optional<ApduVerdict.Answer> to(Peer from, int invokeId, Octets request) {
        Given given = answers.get(new Key(from, invokeId));
        return given != null
                        && given.until() - clock.ticks() > 0
                        && given.digest().equals(digest(request))
                ? Optional.of(given.answer())
                : Optional.empty();
    }

    synchronized void keep(Peer from, int invokeId, Octets request, ApduVerdict.Answer answer) {
        Key key = new Key(from, invokeId);
        answers.remove(key);
        if (answers.size() >= MOST) {
            answers.remove(answers.keySet().iterator().next());
        }
        answers.put(key, new Given(digest(request), answer, clock.ticks() + MEMORY));
    }

    private static Octets digest(Octets request) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(request.toArray());
            return Octets.copyOf(digest, digest.length);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
