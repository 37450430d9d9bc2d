package burnerbridge.config.file;

import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.SimilarNames;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.Name;
import java.util.Map;

/** Warns of lines and types that no controller uses, and of names in site.yaml that look alike. */
final class UseCheck {
    private final YamlMap top;
    private final Problems problems;

    UseCheck(YamlMap top, Problems problems) {
        this.top = top;
        this.problems = problems;
    }

    void run() {
        checkNames("lines");
        checkNames("types");
        checkNames("controllers");
        checkGroupNames();
        checkUse("lines", "line", "is not the line of any controller, and is not opened");
        checkUse("types", "type", "is not the type of any controller, and nothing of it is read");
    }

    private void checkGroupNames() {
        SimilarNames names = new SimilarNames("groups.", problems);
        top.map("groups")
                .ifPresent(map -> map.keys().stream()
                        .filter(key -> Name.objectionTo(key).isEmpty())
                        .forEach(key -> names.add(new Name(key), map.placeOf(key))));
    }

    private void checkNames(String section) {
        SimilarNames names = new SimilarNames(section + ".", problems);
        top.named(section).forEach((name, map) -> names.add(name, map.place()));
    }

    private void checkUse(String section, String key, String message) {
        Map<Name, YamlMap> controllers = top.named("controllers");
        if (controllers.isEmpty()) {
            return;
        }
        top.named(section).forEach((name, map) -> {
            if (controllers.values().stream().noneMatch(c -> c.holds(key, name.text()))) {
                map.warning(message);
            }
        });
    }
}
