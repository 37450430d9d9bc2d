package burnerbridge.config.point;

import burnerbridge.config.file.SiteFile;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.row.Language;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.unit.UnitSystem;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;

/** Reads the point lists of the types, one that several types share alike only once, so that it is told once. */
public final class PointLists {
    private final Path folder;
    private final ZoneId zone;
    private final UnitSystem units;
    private final Language language;
    private final boolean basicObjects;
    private final Problems problems;
    private final Map<TypeSettings, ListRead> read = new LinkedHashMap<>();

    private record ListRead(ControllerType type, PointListReader reader) {}

    public PointLists(
            Path folder, ZoneId zone, UnitSystem units, Language language, boolean basicObjects, Problems problems) {
        this.folder = folder;
        this.zone = zone;
        this.units = units;
        this.language = language;
        this.basicObjects = basicObjects;
        this.problems = problems;
    }

    public ControllerType type(TypeSettings settings) {
        ListRead list = read.entrySet().stream()
                .filter(entry -> entry.getKey().withName(settings.name()).equals(settings))
                .findFirst()
                .map(entry -> ofName(settings.name(), entry.getValue()))
                .orElseGet(() -> fromFile(settings));
        read.put(settings, list);
        return list.type();
    }

    private static ListRead ofName(Name name, ListRead list) {
        return new ListRead(
                new ControllerType(
                        name,
                        list.type().points(),
                        list.type().rules(),
                        list.type().options()),
                list.reader());
    }

    private ListRead fromFile(TypeSettings settings) {
        PointListReader reader = new PointListReader(settings, zone, units, language, basicObjects, problems);
        return new ListRead(reader.read(folder), reader);
    }

    /** Where the points of each type stand. */
    public Map<Name, Map<Name, PointOrigin>> origins() {
        Map<Name, Map<Name, PointOrigin>> origins = new HashMap<>();
        read.forEach(
                (settings, list) -> origins.put(settings.name(), list.reader().origins()));
        return origins;
    }

    /** Where a cell of a point of a type stands; {@code site.yaml} as a whole for those of a group. */
    Place place(Name type, Name point, String column) {
        return read.entrySet().stream()
                .filter(entry -> entry.getKey().name().equals(type))
                .findFirst()
                .map(entry -> entry.getValue().reader().place(point, column))
                .orElseGet(() -> Place.wholeFile(SiteFile.NAME));
    }
}
