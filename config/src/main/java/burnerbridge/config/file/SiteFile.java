package burnerbridge.config.file;

import burnerbridge.config.permit.PermitPart;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.row.Language;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Name;
import burnerbridge.site.UnitId;
import burnerbridge.site.WebSettings;
import burnerbridge.site.unit.UnitSystem;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What {@code site.yaml} says, as far as it is right; the points of its types are read apart.
 *
 * @param units what is shown where a row says nothing else
 * @param language in which texts are shown where a row has them
 * @param controllers in the order of the file
 * @param groups likewise
 * @param permits what may be written, not read yet
 * @param namedFiles files outside the folder
 */
public record SiteFile(
        Optional<Name> name,
        String description,
        Optional<ZoneId> zone,
        UnitSystem units,
        Language language,
        List<LineDefinition> lines,
        Map<Name, TypeSettings> types,
        List<ControllerEntry> controllers,
        List<GroupEntry> groups,
        Optional<BacnetSettings> bacnet,
        Optional<MqttSettings> mqtt,
        Optional<WebSettings> web,
        PermitPart permits,
        List<NamedFile> namedFiles) {

    public static final String NAME = "site.yaml";

    /** A group and the names of its controllers. */
    public record GroupEntry(Name name, List<YamlMap.Item> members, Place place) {}

    /** What bindings know of a controller or group. */
    public record Based(Name name, Name type, int instanceBase, Place place) {}

    /** A controller whose type is known by name only. */
    public record ControllerEntry(
            Name name,
            Name line,
            UnitId unit,
            Name type,
            int instanceBase,
            boolean anyReplyUnit,
            int addressOffset,
            Place place,
            Place offsetPlace) {}
}
