package burnerbridge.bacnet.documents;

import burnerbridge.bacnet.cov.Watched;
import burnerbridge.bacnet.device.Inventory;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.WriteCaution;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.EngineeringUnits;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The table of objects in the layout of engineering data exchange (B.I.G.-EU, EDE; from memory), with or
 * without the 17th column, the notification class, which came with layout 2.3.
 */
final class ExchangeTable {
    private static final List<String> COLUMNS = List.of(
            "# keyname",
            "device obj.-instance",
            "object-name",
            "object-type",
            "object-instance",
            "description",
            "present-value-default",
            "min-present-value",
            "max-present-value",
            "settable",
            "supports COV",
            "hi-limit",
            "low-limit",
            "state-text-reference",
            "unit-code",
            "vendor-specific-address",
            "notification-class");
    /** The first five must be filled. */
    private static final int MANDATORY = 5;

    private final Inventory inventory;
    private final StateTexts texts;
    private final String project;
    private final LocalDate day;

    ExchangeTable(Inventory inventory, StateTexts texts, String project, LocalDate day) {
        this.inventory = inventory;
        this.texts = texts;
        this.project = project;
        this.day = day;
    }

    String text(boolean withNotificationClass) {
        int columns = withNotificationClass ? COLUMNS.size() : COLUMNS.size() - 1;
        StringBuilder text = new StringBuilder("#Engineering-Data-Exchange - B.I.G.-EU\r\n");
        if (inventory.isCommandable()) {
            text.append("#").append(Cells.line(List.of(WriteCaution.LABELLED)));
        }
        text.append(Cells.line(List.of("PROJECT_NAME", project)));
        text.append(Cells.line(List.of("VERSION_OF_REFERENCEFILE", "1")));
        text.append(Cells.line(List.of("TIMESTAMP_OF_LAST_CHANGE", day.toString())));
        text.append(Cells.line(List.of("AUTHOR_OF_LAST_CHANGE", "Burner Bridge")));
        text.append(Cells.line(List.of("VERSION_OF_LAYOUT", withNotificationClass ? "2.3" : "2.1")));
        text.append(Cells.line(obligations(columns)));
        text.append(Cells.line(COLUMNS.subList(0, columns)));
        text.append(Cells.line(cells(new Inventory.Entry(inventory.device(), Optional.empty(), false))
                .subList(0, columns)));
        inventory.entries().forEach(entry -> text.append(Cells.line(cells(entry).subList(0, columns))));
        return text.toString();
    }

    private static List<String> obligations(int columns) {
        List<String> cells = new ArrayList<>();
        for (int i = 0; i < columns; i++) {
            cells.add((i == 0 ? "#" : "") + (i < MANDATORY ? "mandatory" : "optional"));
        }
        return cells;
    }

    private List<String> cells(Inventory.Entry entry) {
        BACnetObject object = entry.object();
        return List.of(
                object.getObjectName(),
                Integer.toString(inventory.device().getInstanceId()),
                object.getObjectName(),
                Integer.toString(object.getId().getObjectType().intValue()),
                Integer.toString(object.getInstanceId()),
                description(entry),
                held(object, PropertyIdentifier.relinquishDefault),
                held(object, PropertyIdentifier.minPresValue),
                held(object, PropertyIdentifier.maxPresValue),
                entry.commandable() ? "Y" : "N",
                object instanceof Watched ? "Y" : "N",
                "",
                "",
                texts.reference(object),
                unit(object),
                entry.point().map(ExchangeTable::address).orElse(""),
                "");
    }

    /** Of a commandable object what it is, and not who holds it. */
    private static String description(Inventory.Entry entry) {
        return entry.point()
                .filter(point -> entry.commandable())
                .map(point -> (point.definition().descriptionWithBasis() + " (request)").strip())
                .orElseGet(() -> held(entry.object(), PropertyIdentifier.description));
    }

    private static String held(BACnetObject object, PropertyIdentifier property) {
        Encodable value = object.get(property);
        return value == null ? "" : value.toString();
    }

    private static String unit(BACnetObject object) {
        Encodable units = object.get(PropertyIdentifier.units);
        return units instanceof EngineeringUnits known ? Integer.toString(known.intValue()) : "";
    }

    /** Where the controller has it, what is computed nowhere: {@code boiler-house unit 1 holding-register 40101 (wire 100)}. */
    private static String address(SitePoint point) {
        if (point.controller().isGroup()) {
            return "";
        }
        return point.controller().line() + " unit " + point.controller().unit() + " "
                + point.definition().addressText();
    }
}
