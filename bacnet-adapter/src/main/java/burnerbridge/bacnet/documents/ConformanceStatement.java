package burnerbridge.bacnet.documents;

import burnerbridge.bacnet.device.Inventory;
import burnerbridge.bacnet.edge.frame.SegmentLimits;
import burnerbridge.bacnet.edge.service.TakenService;
import burnerbridge.bacnet.edge.service.WriteService;
import burnerbridge.site.permit.WriteCaution;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.obj.ObjectProperties;
import com.serotonin.bacnet4j.obj.ObjectPropertyTypeDefinition;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The protocol implementation conformance statement (ASHRAE 135, Annex A). What it says of objects, properties
 * and services is read from what is served; it says nothing of what others think of the product.
 */
final class ConformanceStatement {
    /** Building blocks of Annex K, each with the services that make it. */
    private static final Map<String, Set<TakenService>> BLOCKS = new TreeMap<>(Map.of(
            "DS-RP-B", Set.of(TakenService.READ_PROPERTY),
            "DS-RPM-B", Set.of(TakenService.READ_PROPERTY_MULTIPLE),
            "DS-COV-B", Set.of(TakenService.SUBSCRIBE_COV),
            "DS-COVP-B", Set.of(TakenService.SUBSCRIBE_COV_PROPERTY),
            "DM-DDB-B", Set.of(TakenService.WHO_IS),
            "DM-DOB-B", Set.of(TakenService.WHO_HAS)));

    private final Inventory inventory;
    private final LocalDate day;

    ConformanceStatement(Inventory inventory, LocalDate day) {
        this.inventory = inventory;
        this.day = day;
    }

    String text() {
        return String.join(
                "\n",
                "# BACnet Protocol Implementation Conformance Statement",
                "",
                "Made by the program from what it serves. Nobody has examined it.",
                "",
                inventory.isCommandable()
                        ? WriteCaution.LABELLED
                        : "Caution: not a safety device. Check every point against the controller's own display before use.",
                "",
                "| | |",
                "|---|---|",
                "| Date | " + day + " |",
                "| Vendor Name | " + held(PropertyIdentifier.vendorName) + " |",
                "| Vendor Identifier | " + held(PropertyIdentifier.vendorIdentifier) + " |",
                "| Product Model | " + held(PropertyIdentifier.modelName) + " |",
                "| Application Software Version | " + held(PropertyIdentifier.applicationSoftwareVersion) + " |",
                "| Firmware Revision | " + held(PropertyIdentifier.firmwareRevision) + " |",
                "| BACnet Protocol Revision | " + held(PropertyIdentifier.protocolRevision) + " |",
                "",
                "## Product description",
                "",
                "Reads burner controllers over Modbus and shows their values as BACnet objects. "
                        + (inventory.isCommandable()
                                ? "What write permits allow can be asked for, by the objects that are listed below."
                                : "Nothing is writable."),
                "",
                "## Device profile",
                "",
                "BACnet Gateway (B-GW) with embedded objects"
                        + (inventory.isCommandable()
                                ? "."
                                : ", but for DS-WP-B: there is nothing to write, and WriteProperty is answered with"
                                        + " write-access-denied."),
                "",
                "## Interoperability building blocks",
                "",
                blocks(),
                "",
                "## Services",
                "",
                services(),
                "",
                writes() + " Every other confirmed service is rejected as unrecognized-service;"
                        + " every other unconfirmed service is ignored.",
                "",
                "## Segmentation",
                "",
                "- Segmented messages are sent, with a window of up to 16.",
                "- Segmented requests are taken, of up to " + SegmentLimits.MOST_SEGMENTS
                        + " segments, with a window of up to 8.",
                "- The longest APDU is " + held(PropertyIdentifier.maxApduLengthAccepted) + " octets.",
                "",
                "## Object types",
                "",
                "No object can be created or deleted, and no property written"
                        + (inventory.isCommandable() ? " but those below" : "")
                        + ", through BACnet. None is proprietary.",
                "",
                types(),
                "",
                commandable(),
                "## Data link",
                "",
                "- BACnet/IP (Annex J), IPv4, UDP.",
                "- Can register as a foreign device.",
                "",
                "## Device address binding",
                "",
                "Static device binding is not supported; it is not needed, since this device asks no other.",
                "",
                "## Networking options",
                "",
                "None: no router, no broadcast management device.",
                "",
                "## Character sets",
                "",
                "ISO 10646 (UTF-8).",
                "");
    }

    private String held(PropertyIdentifier property) {
        Encodable value = inventory.device().get(property);
        return value == null ? "" : value.toString();
    }

    private String writes() {
        return inventory.isCommandable()
                ? "WriteProperty and WritePropertyMultiple are acknowledged where the write gate admits what is asked for,"
                        + " which is then not written yet; else they are answered with an error."
                : "WriteProperty and WritePropertyMultiple are answered with an error, write-access-denied where nothing"
                        + " else is wrong.";
    }

    /** What can be commanded, with the values that the permits allow; nothing where nothing can. */
    private String commandable() {
        if (!inventory.isCommandable()) {
            return "";
        }
        List<String> lines = new ArrayList<>(List.of(
                "## Writable properties",
                "",
                "Present_Value of these objects, at the priorities 1 to 16 but 6; Null gives a priority up. A value holds"
                        + " as long as the permit says, unless it is asked for again.",
                "",
                "| object | name | values |",
                "|---|---|---|"));
        inventory.entries().stream()
                .filter(Inventory.Entry::commandable)
                .map(entry -> "| " + entry.object().getId() + " | "
                        + entry.object().getObjectName() + " | " + values(entry.object()) + " |")
                .forEach(lines::add);
        lines.add("");
        return String.join("\n", lines);
    }

    private static String values(BACnetObject object) {
        Encodable low = object.get(PropertyIdentifier.minPresValue);
        Encodable high = object.get(PropertyIdentifier.maxPresValue);
        return low == null || high == null ? "states" : low + " to " + high;
    }

    private String blocks() {
        Stream<String> taken = BLOCKS.entrySet().stream()
                .filter(block -> Set.of(TakenService.values()).containsAll(block.getValue()))
                .map(Map.Entry::getKey);
        Stream<String> written = inventory.isCommandable() ? Stream.of("DS-WP-B", "DS-WPM-B") : Stream.of();
        return Stream.concat(taken, written).sorted().map(block -> "- " + block).collect(Collectors.joining("\n"));
    }

    private String services() {
        List<String> lines = new ArrayList<>(List.of("| service | initiate | execute |", "|---|---|---|"));
        for (TakenService service : TakenService.values()) {
            lines.add("| " + service.title() + " | | x |");
        }
        if (inventory.isCommandable()) {
            for (WriteService service : WriteService.values()) {
                lines.add("| " + service.title() + " | | x |");
            }
        }
        for (String sent : List.of("ConfirmedCOVNotification", "I-Am", "I-Have", "UnconfirmedCOVNotification")) {
            lines.add("| " + sent + " | x | |");
        }
        return String.join("\n", lines);
    }

    private String types() {
        Map<ObjectType, Set<String>> optional = new TreeMap<>(Comparator.comparingInt(ObjectType::intValue));
        optional.put(ObjectType.device, optionalOf(inventory.device()));
        inventory.entries().stream()
                .map(Inventory.Entry::object)
                .forEach(object -> optional.computeIfAbsent(object.getId().getObjectType(), t -> new TreeSet<>())
                        .addAll(optionalOf(object)));
        List<String> lines = new ArrayList<>(List.of("| object type | optional properties |", "|---|---|"));
        optional.forEach((type, properties) -> lines.add("| " + type + " | " + String.join(", ", properties) + " |"));
        return String.join("\n", lines);
    }

    private static Set<String> optionalOf(BACnetObject object) {
        return ObjectProperties.getOptionalObjectPropertyTypeDefinitions(
                        object.getId().getObjectType())
                .stream()
                .map(ObjectPropertyTypeDefinition::getPropertyTypeDefinition)
                .map(definition -> definition.getPropertyIdentifier())
                .filter(property -> object.get(property) != null)
                .map(PropertyIdentifier::toString)
                .collect(Collectors.toCollection(TreeSet::new));
    }
}
