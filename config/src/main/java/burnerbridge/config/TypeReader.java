package burnerbridge.config;

import burnerbridge.config.TypeSettings.Causes;
import burnerbridge.site.Name;
import burnerbridge.site.ReadRules;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reads the {@code types} of {@code site.yaml}. */
final class TypeReader {
    static final String READ_CLEARING = "read-clearing";
    static final String CAUSES = "causes";

    private static final Set<String> KEYS = new TreeSet<>(Set.of(
            "points", "numbering", "order", "first-bit", "max-registers", "pause", "tables", READ_CLEARING, CAUSES));
    private static final Set<String> NOT_YET = Set.of("identity", "watchdog", "readable", "protected");
    private static final String MIRROR = "mirror";
    private static final Set<String> TABLES = new TreeSet<>(Set.of("separate", MIRROR));
    private static final Duration LONGEST_PAUSE = Duration.ofSeconds(10);

    private final Path folder;
    private final CausesReader causes;

    TypeReader(Path folder, CausesReader causes) {
        this.folder = folder;
        this.causes = causes;
    }

    Map<Name, TypeSettings> read(YamlMap top) {
        Map<Name, TypeSettings> types = new LinkedHashMap<>();
        if (!top.has("types")) {
            top.error("types", "is missing; it names the point list of each kind of controller");
        }
        top.named("types").forEach((name, map) -> type(name, map).ifPresent(type -> types.put(name, type)));
        return types;
    }

    private Optional<TypeSettings> type(Name name, YamlMap map) {
        map.allowOnly(KEYS, NOT_YET);
        Optional<String> points = map.requiredText("points", "the point list, like points/hot-water.csv")
                .filter(file -> isFile(map, "points", file, "points/hot-water.csv"));
        Optional<Causes> ofType = causes(map);
        map.requiredText("numbering", "how the manual counts: " + String.join(", ", Numbering.words()));
        Optional<Numbering> numbering = map.word("numbering", Numbering.words()).map(Numbering::ofWord);
        Optional<String> order = map.word("order", Orders.BY_WORD.keySet());
        int firstBit = map.integer("first-bit", 0, 1).orElse(0);
        List<YamlMap.Item> readClearing = map.listOf(READ_CLEARING);
        Optional<ReadRules> rules = numbering.map(n -> rules(name, map, n));
        if (points.isEmpty() || rules.isEmpty() || ofType.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new TypeSettings(
                name,
                points.get(),
                numbering.get(),
                order.map(Orders.BY_WORD::get).orElseGet(() -> Orders.BY_WORD.get("high-word-first")),
                firstBit,
                rules.get(),
                readClearing,
                ofType.get()));
    }

    private static ReadRules rules(Name name, YamlMap map, Numbering numbering) {
        boolean mirrored = map.word("tables", TABLES).filter(MIRROR::equals).isPresent();
        return new ReadRules(
                mirrored,
                new ReadLimitsReader(name, numbering, mirrored).read(map),
                map.duration("pause", Duration.ZERO, LONGEST_PAUSE).orElse(Duration.ZERO),
                List.of());
    }

    /** Empty where a file is named that is not there. */
    private Optional<Causes> causes(YamlMap map) {
        Optional<String> file = map.text(CAUSES);
        return file.isEmpty()
                ? Optional.of(Causes.NONE)
                : file.filter(f -> isFile(map, CAUSES, f, "codes/causes.csv")).map(f -> new Causes(f, causes.read(f)));
    }

    private boolean isRegularFile(String file) {
        try {
            return Files.isRegularFile(folder.resolve(file));
        } catch (InvalidPathException e) {
            return false;
        }
    }

    /** A file that cannot be found is told here, where it is named. */
    private boolean isFile(YamlMap map, String key, String file, String like) {
        boolean sound = !file.isBlank() && isRegularFile(file);
        if (!sound) {
            map.error(key, "must be a file in the site folder, like " + like + " (was '" + file + "')");
        }
        return sound;
    }
}
