package burnerbridge.config.file;

import burnerbridge.config.file.SiteFile.GroupEntry;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.Name;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Reads {@code groups}: names with a list of controllers each. */
final class GroupReader {
    private static final String KEY = "groups";

    private final YamlMap top;
    private final Problems problems;

    GroupReader(YamlMap top, Problems problems) {
        this.top = top;
        this.problems = problems;
    }

    /** The groups, those that are wrong left out; what is wrong is told. */
    List<GroupEntry> read() {
        List<GroupEntry> groups = new ArrayList<>();
        top.map(KEY).ifPresent(map -> {
            for (String key : map.keys()) {
                List<YamlMap.Item> members = map.listOf(key);
                if (isName(map, key) && areControllers(map, key, members)) {
                    groups.add(new GroupEntry(new Name(key), members, map.placeOf(key)));
                }
            }
        });
        return groups;
    }

    /** A group stands beside controllers in topics, and beside types in the bindings. */
    private boolean isName(YamlMap map, String key) {
        String objection = Name.objectionTo(key);
        for (String other : List.of("controllers", "types")) {
            if (objection.isEmpty() && names(other).contains(key)) {
                objection = "is also the name of one of the " + other + ", and a group needs its own";
            }
        }
        if (!objection.isEmpty()) {
            map.errorAtKey(key, objection);
        }
        return objection.isEmpty();
    }

    private Set<String> names(String section) {
        return top.map(section).map(YamlMap::keys).orElse(Set.of());
    }

    private boolean areControllers(YamlMap map, String key, List<YamlMap.Item> members) {
        if (members.isEmpty()) {
            map.error(key, "must be a list of controllers, like [boiler-1, boiler-2]");
            return false;
        }
        Set<String> known = names("controllers");
        Set<String> seen = new HashSet<>();
        boolean sound = true;
        for (YamlMap.Item member : members) {
            if (!known.contains(member.text())) {
                sound = false;
                map.error(
                        key,
                        member,
                        "must be one of " + String.join(", ", known) + " (was '" + member.text() + "')"
                                + NearestWord.hint(member.text(), known));
            } else if (!seen.add(member.text())) {
                sound = false;
                map.error(key, member, "'" + member.text() + "' stands here twice, and would be counted twice");
            }
        }
        return sound;
    }
}
