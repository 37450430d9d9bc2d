package burnerbridge.config.file;

import burnerbridge.config.file.SiteFile.ControllerEntry;
import burnerbridge.config.permit.PermitPart;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.row.Language;
import burnerbridge.config.type.CausesReader;
import burnerbridge.config.type.TypeReader;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.config.yaml.YamlFile;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.UnitId;
import burnerbridge.site.unit.UnitSystem;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/** Reads {@code site.yaml}. */
public final class SiteFileReader {
    /** The highest object or device instance; 4194303 means "none" (ASHRAE 135, 12.1, from memory). */
    public static final int LAST_INSTANCE = 4194302;

    private static final Set<String> KEYS = ordered(
            "site",
            "description",
            "time-zone",
            "units",
            "language",
            "lines",
            "types",
            "controllers",
            "groups",
            "bacnet",
            "mqtt",
            "web",
            PermitPart.KEY);
    static final String ADDRESS_OFFSET = "address-offset";

    private final Path folder;
    private final Problems problems;

    public SiteFileReader(Path folder, Problems problems) {
        this.folder = folder;
        this.problems = problems;
    }

    private static Set<String> ordered(String... words) {
        return new TreeSet<>(List.of(words));
    }

    public Optional<SiteFile> read() {
        return YamlFile.read(folder, SiteFile.NAME, problems).map(this::siteFile);
    }

    private SiteFile siteFile(YamlMap top) {
        top.allowOnly(KEYS, Set.of());
        if (!top.has("bacnet") && !top.has("mqtt")) {
            top.warning("neither bacnet nor mqtt is there, so nothing that is read would be seen");
        }
        Language language = Language.read(top);
        List<LineDefinition> lines = new LineReader(problems).read(top);
        Map<Name, TypeSettings> types = new TypeReader(folder, new CausesReader(folder, language, problems)).read(top);
        new UseCheck(top, problems).run();
        OutsideFiles outside = new OutsideFiles(folder);
        return new SiteFile(
                top.name("site", "it names the site in topics, like 'site: quillmere'"),
                top.text("description").orElse(""),
                zone(top),
                top.word("units", new LinkedHashSet<>(UnitSystem.words()))
                        .flatMap(UnitSystem::ofWord)
                        .orElse(UnitSystem.AS_WRITTEN),
                language,
                lines,
                types,
                controllers(top),
                new GroupReader(top, problems).read(),
                top.map("bacnet").flatMap(map -> new BacnetReader(map).read()),
                top.map("mqtt").flatMap(map -> new MqttReader(map, outside).read()),
                top.map("web").flatMap(map -> new WebReader(map, outside).read()),
                PermitPart.of(top),
                outside.named());
    }

    private static Optional<ZoneId> zone(YamlMap top) {
        Optional<String> text =
                top.requiredText("time-zone", "controllers and BACnet use local time, like Europe/Lisbon");
        try {
            return text.map(ZoneId::of);
        } catch (DateTimeException e) {
            top.error(
                    "time-zone",
                    "is not a time zone (was '" + text.orElse("") + "')"
                            + NearestWord.hint(text.orElse(""), ZoneId.getAvailableZoneIds()));
            return Optional.empty();
        }
    }

    private List<ControllerEntry> controllers(YamlMap top) {
        if (!top.has("controllers")) {
            top.error("controllers", "is missing; it names each burner controller, its line and its unit");
        }
        List<ControllerEntry> controllers = new ArrayList<>();
        Map<String, Name> units = new HashMap<>();
        Set<String> lineNames = ordered(
                top.map("lines").map(m -> m.keys().toArray(String[]::new)).orElse(new String[0]));
        Set<String> typeNames = ordered(
                top.map("types").map(m -> m.keys().toArray(String[]::new)).orElse(new String[0]));
        if (top.map("controllers").map(map -> map.keys().isEmpty()).orElse(false)) {
            top.error("controllers", "must name at least one controller");
        }
        top.named("controllers").forEach((name, map) -> {
            map.allowOnly(ordered("line", "unit", "type", "instance-base", "reply-unit", ADDRESS_OFFSET), Set.of());
            boolean anyReplyUnit = map.word("reply-unit", Set.of("any")).isPresent();
            Optional<String> line = reference(map, "line", lineNames);
            Optional<String> type = reference(map, "type", typeNames);
            OptionalInt unit = unit(map, line.map(text -> isRtu(top, text)).orElse(false));
            int base = map.integer("instance-base", 0, LAST_INSTANCE).orElse(0);
            OptionalInt offset = map.has(ADDRESS_OFFSET) ? map.integer(ADDRESS_OFFSET, 0, 65535) : OptionalInt.of(0);
            if (line.isPresent() && unit.isPresent() && offset.isPresent()) {
                Name other = units.putIfAbsent(line.get() + "/" + unit.getAsInt() + "/" + offset.getAsInt(), name);
                if (other != null) {
                    map.error(
                            "unit",
                            "unit " + unit.getAsInt() + " of line " + line.get() + " is already " + other
                                    + "; several controllers behind one unit differ in " + ADDRESS_OFFSET);
                }
            }
            if (line.isPresent() && type.isPresent() && unit.isPresent() && offset.isPresent()) {
                controllers.add(new ControllerEntry(
                        name,
                        new Name(line.get()),
                        new UnitId(unit.getAsInt()),
                        new Name(type.get()),
                        base,
                        anyReplyUnit,
                        offset.getAsInt(),
                        map.place(),
                        map.has(ADDRESS_OFFSET) ? map.placeOf(ADDRESS_OFFSET) : map.place()));
            }
            if (anyReplyUnit && line.isPresent()) {
                warnOfLateReplies(top, map, line.get());
            }
        });
        return controllers;
    }

    /** Frames of RTU say neither which request nor, with such a controller among them, which unit they answer. */
    private static void warnOfLateReplies(YamlMap top, YamlMap map, String line) {
        long sharing = top.named("controllers").values().stream()
                .filter(other -> other.holds("line", line))
                .count();
        if (isRtu(top, line) && sharing > 1) {
            map.warning(
                    "reply-unit",
                    "with 'any', a late reply of one of the " + sharing + " controllers on line " + line
                            + " looks like another's, so that after a request that goes unanswered the others wait"
                            + " until none can come any more");
        }
    }

    private static boolean isRtu(YamlMap top, String line) {
        return top.map("lines")
                .flatMap(lines -> lines.map(line))
                .map(map -> !map.has("tcp"))
                .orElse(false);
    }

    /** 0 is everybody and 255 the device itself; both mean something on Modbus TCP only. */
    private static OptionalInt unit(YamlMap map, boolean rtu) {
        OptionalInt unit = map.requiredInteger("unit", 0, 255, "the Modbus unit identifier, 0 to 247 or 255");
        if (unit.isPresent() && rtu && (unit.getAsInt() < 1 || unit.getAsInt() > 247)) {
            map.error("unit", "must be 1 to 247 on a line of RTU frames (was " + unit.getAsInt() + ")");
            return OptionalInt.empty();
        }
        if (unit.isPresent() && unit.getAsInt() > 247 && unit.getAsInt() < 255) {
            map.error("unit", "must be 0 to 247, or 255 (was " + unit.getAsInt() + "); 248 to 254 are reserved");
            return OptionalInt.empty();
        }
        return unit;
    }

    private static Optional<String> reference(YamlMap map, String key, Set<String> names) {
        Optional<String> text = map.requiredText(key, "one of " + String.join(", ", names));
        if (names.isEmpty()) {
            // That there are none is told where they should be.
            return Optional.empty();
        }
        if (text.isPresent() && !names.contains(text.get())) {
            map.error(
                    key,
                    "must be one of " + String.join(", ", names) + " (was '" + text.get() + "')"
                            + NearestWord.hint(text.get(), names));
            return Optional.empty();
        }
        return text.filter(t -> Name.objectionTo(t).isEmpty());
    }
}
