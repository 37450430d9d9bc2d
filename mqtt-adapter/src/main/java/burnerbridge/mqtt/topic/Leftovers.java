package burnerbridge.mqtt.topic;

import burnerbridge.control.JsonLine;
import burnerbridge.site.Name;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Topics that this bridge once had and has no more, known from the descriptions that it left on a broker
 * itself. What another client wrote is never counted among them: a description must be of this site and of
 * this client identifier, and what it lists must be names of ours below its own controller.
 */
final class Leftovers {
    private static final String ABOUT = "/about";

    private final String base;
    private final String site;
    private final String clientId;
    private final Set<String> present;

    /** @param present every topic that the site has now */
    Leftovers(String base, String site, String clientId, Set<String> present) {
        this.base = base;
        this.site = site;
        this.clientId = clientId;
        this.present = present;
    }

    /** The topics to be forgotten because of a description, that itself last where its controller is gone. */
    List<String> of(String topic, String payload) {
        String controller = controllerOf(topic);
        Map<String, @Nullable Object> about = parsed(payload);
        boolean ours = Name.objectionTo(controller).isEmpty()
                && site.equals(about.get("site"))
                && clientId.equals(about.get("client"))
                && controller.equals(about.get("controller"));
        List<String> gone = new ArrayList<>();
        if (ours) {
            for (Map<?, ?> point : points(about)) {
                addUnlessPresent(gone, controller, String.valueOf(point.get("name")));
                if (point.get("permit") != null) {
                    addUnlessPresent(gone, controller, OwnTopic.permit(String.valueOf(point.get("name"))));
                }
            }
            addUnlessPresent(gone, controller, "link");
            addUnlessPresent(gone, controller, "about");
        }
        return gone;
    }

    private void addUnlessPresent(List<String> gone, String controller, String level) {
        String topic = base + controller + "/" + level;
        if (!present.contains(topic)) {
            gone.add(topic);
        }
    }

    private String controllerOf(String topic) {
        boolean about =
                topic.startsWith(base) && topic.endsWith(ABOUT) && topic.length() > base.length() + ABOUT.length();
        return about ? topic.substring(base.length(), topic.length() - ABOUT.length()) : "";
    }

    private static List<Map<?, ?>> points(Map<String, @Nullable Object> about) {
        List<Map<?, ?>> named = new ArrayList<>();
        if (about.get("points") instanceof List<?> points) {
            for (Object point : points) {
                if (point instanceof Map<?, ?> map
                        && map.get("name") instanceof String name
                        && Name.objectionTo(name).isEmpty()) {
                    named.add(map);
                }
            }
        }
        return named;
    }

    private static Map<String, @Nullable Object> parsed(String payload) {
        try {
            return JsonLine.parse(payload);
        } catch (IllegalArgumentException e) {
            return Map.of();
        }
    }
}
