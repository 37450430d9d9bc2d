package burnerbridge.config.binding;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;

/**
 * What a person has decided where the point lists alone do not tell a renamed point from another one.
 *
 * @param renamed former names and what they are called now: {@code hot-water.oxygen} to {@code
 *     hot-water.flue-oxygen}, or a type to a type
 * @param notRenamed points, or types, that are what their names say although they look like one that is gone
 */
public record BindingChoices(Map<String, String> renamed, Set<String> notRenamed) {
    public static final BindingChoices NONE = new BindingChoices(Map.of(), Set.of());

    public BindingChoices {
        renamed = Map.copyOf(new LinkedHashMap<>(renamed));
        notRenamed = Set.copyOf(notRenamed);
    }
}
