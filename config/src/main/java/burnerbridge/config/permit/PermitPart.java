package burnerbridge.config.permit;

import burnerbridge.config.yaml.YamlMap;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;

/**
 * What {@code site.yaml} says of writes, as it stands there, and of what can ask for them.
 *
 * @param owners the names of all controllers and groups, also of those that are wrong and are told as such
 * @param bacnet whether that side is on
 * @param mqtt likewise
 */
public record PermitPart(List<YamlMap> entries, Set<String> owners, boolean bacnet, boolean mqtt) {
    public static final String KEY = "write-permits";

    private static final String NAME = "[a-z0-9]+(-[a-z0-9]+)*";
    private static final Pattern POINT = Pattern.compile(NAME + "\\." + NAME);

    public PermitPart {
        entries = List.copyOf(entries);
        owners = new TreeSet<>(owners);
    }

    public static PermitPart of(YamlMap top) {
        Set<String> owners = new TreeSet<>();
        List.of("controllers", "groups")
                .forEach(section -> top.map(section).ifPresent(map -> owners.addAll(map.keys())));
        return new PermitPart(top.maps(KEY, PermitKeys.POINT, POINT), owners, top.has("bacnet"), top.has("mqtt"));
    }
}
