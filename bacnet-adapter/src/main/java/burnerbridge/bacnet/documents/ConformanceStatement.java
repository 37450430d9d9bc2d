package burnerbridge.bacnet.documents;

import burnerbridge.bacnet.device.Inventory;
import burnerbridge.bacnet.edge.frame.SegmentLimits;
import burnerbridge.bacnet.edge.service.TakenService;
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
                "Caution: not a safety device. Check every point against the controller's own display before use.",
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
                "Reads burner controllers over Modbus and shows their values as BACnet objects. Nothing is writable.",
                "",
                "## Device profile",
                "",
                "BACnet Gateway (B-GW) with embedded objects, but for DS-WP-B: there is nothing to write, and"
                        + " WriteProperty is answered with write-access-denied.",
                "",
                "## Interoperability building blocks",
                "",
                blocks(),
                "",
                "## Services",
                "",
                services(),
                "",
                "WriteProperty and WritePropertyMultiple are answered with an error, write-access-denied where nothing"
                        + " else is wrong. Every other confirmed service is rejected as unrecognized-service;"
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
                "No object can be created or deleted, and no property written, through BACnet. None is proprietary.",
                "",
                types(),
                "",
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

    private static String blocks() {
        return BLOCKS.entrySet().stream()
                .filter(block -> Set.of(TakenService.values()).containsAll(block.getValue()))
                .map(block -> "- " + block.getKey())
                .collect(Collectors.joining("\n"));
    }

    private static String services() {
        List<String> lines = new ArrayList<>(List.of("| service | initiate | execute |", "|---|---|---|"));
        for (TakenService service : TakenService.values()) {
            lines.add("| " + service.title() + " | | x |");
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
