package burnerbridge.config.type;

import burnerbridge.config.problem.Unreadable;
import burnerbridge.config.type.TypeSettings.Causes;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.Name;
import burnerbridge.site.ReadRules;
import burnerbridge.site.TypeOptions;
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
public final class TypeReader {
    public static final String READ_CLEARING = "read-clearing";
    public static final String TABLES = "tables";
    static final String CAUSES = "causes";
    public static final String IDENTITY = "identity";
    public static final String WATCHDOG = "watchdog";

    private static final Set<String> KEYS = new TreeSet<>(Set.of(
            "points",
            "numbering",
            "order",
            "first-bit",
            "max-registers",
            "pause",
            TABLES,
            READ_CLEARING,
            CAUSES,
            IDENTITY,
            WATCHDOG,
            TypeRanges.READABLE,
            TypeRanges.PROTECTED));
    private static final Duration SHORTEST_WATCHDOG = Duration.ofSeconds(1);
    private static final Duration LONGEST_WATCHDOG = Duration.ofHours(24);
    private static final String SEPARATE = "separate";
    private static final String MIRROR = "mirror";
    private static final Set<String> WORDS_OF_TABLES = new TreeSet<>(Set.of(SEPARATE, MIRROR));
    private static final Duration LONGEST_PAUSE = Duration.ofSeconds(10);

    private final Path folder;
    private final CausesReader causes;

    public TypeReader(Path folder, CausesReader causes) {
        this.folder = folder;
        this.causes = causes;
    }

    public Map<Name, TypeSettings> read(YamlMap top) {
        Map<Name, TypeSettings> types = new LinkedHashMap<>();
        if (!top.has("types")) {
            top.error("types", "is missing; it names the point list of each kind of controller");
        }
        top.named("types").forEach((name, map) -> type(name, map).ifPresent(type -> types.put(name, type)));
        return types;
    }

    private Optional<TypeSettings> type(Name name, YamlMap map) {
        map.allowOnly(KEYS, Set.of());
        Optional<String> points = map.requiredText("points", "the point list, like points/hot-water.csv")
                .filter(file -> isFile(map, "points", file, "points/hot-water.csv"));
        Optional<Causes> ofType = causes(map);
        map.requiredText("numbering", "how the manual counts: " + String.join(", ", Numbering.words()));
        Optional<Numbering> numbering = map.word("numbering", Numbering.words()).map(Numbering::ofWord);
        Optional<String> order = map.word("order", Orders.BY_WORD.keySet());
        int firstBit = map.integer("first-bit", 0, 1).orElse(0);
        List<YamlMap.Item> readClearing = map.listOf(READ_CLEARING);
        Optional<YamlMap.Item> identity = map.item(IDENTITY);
        Optional<TypeRanges> ranges = numbering.map(n -> new TypeRanges(name, n, map));
        Optional<TypeOptions> options = ranges.map(r -> options(map, identity, r));
        Optional<ReadRules> rules = numbering.map(n -> rules(name, map, n, options.orElseThrow()));
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
                ranges.orElseThrow().places(),
                identity,
                options.orElseThrow(),
                ofType.get()));
    }

    private static TypeOptions options(YamlMap map, Optional<YamlMap.Item> identity, TypeRanges ranges) {
        return new TypeOptions(
                identity.map(YamlMap.Item::text)
                        .filter(text -> Name.objectionTo(text).isEmpty())
                        .map(Name::new),
                watchdog(map),
                ranges.readable(),
                ranges.guarded(map.holds(TABLES, MIRROR)),
                map.holds(TABLES, SEPARATE));
    }

    private static Optional<Duration> watchdog(YamlMap map) {
        return map.holds(WATCHDOG, "none")
                ? Optional.empty()
                : map.duration(WATCHDOG, SHORTEST_WATCHDOG, LONGEST_WATCHDOG);
    }

    private static ReadRules rules(Name name, YamlMap map, Numbering numbering, TypeOptions options) {
        boolean mirrored =
                map.word(TABLES, WORDS_OF_TABLES).filter(MIRROR::equals).isPresent();
        return new ReadRules(
                mirrored,
                new ReadLimitsReader(name, numbering, mirrored).read(map),
                map.duration("pause", Duration.ZERO, LONGEST_PAUSE).orElse(Duration.ZERO),
                List.of(),
                options.readable().stream().map(TypeOptions.Stated::range).toList());
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
            map.error(
                    key,
                    closed(file).orElse("must be a file in the site folder, like " + like + " (was '" + file + "')"));
        }
        return sound;
    }

    private Optional<String> closed(String file) {
        try {
            return Unreadable.closed(folder.resolve(file));
        } catch (InvalidPathException e) {
            return Optional.empty();
        }
    }
}
