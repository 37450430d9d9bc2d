package burnerbridge.mqtt.door;

import burnerbridge.mqtt.topic.OwnTopic;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.Purpose;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A point that may be asked for over MQTT.
 *
 * @param topic of its readings, the root included; that of its asks is below
 */
public record AskPoint(SitePoint point, String topic, Purpose.Asked permit) {

    /** No wildcard, and nothing that a client or broker could stumble over. */
    private static final Pattern ANSWERABLE = Pattern.compile("[0-9A-Za-z._:/-]+");

    /** All of a site, in the order of its points. */
    public static List<AskPoint> all(String root, Site site) {
        Map<PointId, Purpose.Asked> asked = site.asked();
        return site.points().stream()
                .flatMap(point ->
                        Optional.ofNullable(asked.get(point.id()))
                                .filter(permit -> permit.from().mqtt())
                                .stream()
                                .map(permit -> new AskPoint(point, SiteTopics.ofPoint(root, site, point), permit)))
                .toList();
    }

    PointId id() {
        return point.id();
    }

    /** Where it may be asked for. */
    public String askTopic() {
        return OwnTopic.ask(topic);
    }

    /** Where what became of an ask is told. */
    public String replyTopic() {
        return OwnTopic.reply(topic);
    }

    /**
     * Whether an answer may go to a topic: its own, or one below that, which an asker has for itself. Nothing else, so
     * that nobody can have the bridge write where somebody takes it for a value or an ask.
     */
    boolean mayReplyTo(String other) {
        boolean own = other.equals(replyTopic()) || other.startsWith(replyTopic() + "/");
        return own
                && other.length() <= Arrivals.LONGEST_TOPIC
                && ANSWERABLE.matcher(other).matches();
    }
}
