package burnerbridge.write;

import burnerbridge.site.PointId;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Which refusals are told: of each point and question the first at once, then their number once a minute, so that nobody
 * can flood who listens. It belongs to the gate's monitor.
 */
final class RefusalNews {
    private static final long MINUTE = Duration.ofMinutes(1).toNanos();

    private final Map<Topic, Tally> known = new LinkedHashMap<>();

    private record Topic(PointId point, String code) {}

    private record Tally(long since, long more, String last) {}

    /** What is told of a refusal at once; empty where it is counted. */
    Optional<WriteEvent> refused(PointId point, String code, String sentence, long now) {
        Topic topic = new Topic(point, code);
        Tally tally = known.get(topic);
        if (tally != null) {
            known.put(topic, new Tally(tally.since, tally.more + 1, sentence));
            return Optional.empty();
        }
        known.put(topic, new Tally(now, 0, sentence));
        return Optional.of(new WriteEvent(WriteEvent.Kind.REFUSED, point, sentence));
    }

    /** What is told of those that were counted, a minute after the last that was told. */
    List<WriteEvent> due(long now) {
        List<WriteEvent> told = new ArrayList<>();
        known.entrySet().removeIf(entry -> now - entry.getValue().since >= MINUTE && entry.getValue().more == 0);
        known.replaceAll((topic, tally) -> {
            if (now - tally.since < MINUTE) {
                return tally;
            }
            String times = tally.more == 1 ? "one more time: " : tally.more + " more times, at last: ";
            told.add(new WriteEvent(WriteEvent.Kind.REFUSED, topic.point, times + tally.last));
            return new Tally(now, 0, tally.last);
        });
        return told;
    }
}
