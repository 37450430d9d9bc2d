package burnerbridge.write.approval;

import burnerbridge.control.JsonLine;
import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.RequestObjects;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.guard.PhysicalUnit;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.write.store.Sha256;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Everything of a site that decides which bytes a permit sends and who may ask for them, item by item, in a fixed order:
 * two sites with the same items are the same to the gate. The order in which permits, lines and rows stand decides
 * nothing. Immutable.
 *
 * <p>The controllers concerned are all that live in a unit to which a permit writes. Of their rows everything is an item
 * but descriptions and the texts of states.
 */
public final class ApprovedItems {
    /** To be counted up whenever the gate would send other bytes for the same site. */
    public static final int GATE_VERSION = 1;

    private final List<ApprovedItem> items;
    private final Map<Name, String> identities;
    private final Map<String, String> roles;
    private final String hash;

    private ApprovedItems(List<ApprovedItem> items, Map<Name, String> identities, Map<String, String> roles) {
        this.items = List.copyOf(items);
        this.identities = Collections.unmodifiableMap(new TreeMap<>(identities));
        this.roles = Collections.unmodifiableMap(new TreeMap<>(roles));
        this.hash = hash(this.items);
    }

    /**
     * The items of a site.
     *
     * @param identities what the identity points of controllers hold, by the controllers' names; those that are not in it
     *     are not known
     * @throws IllegalArgumentException where a permit is for a point that the site has not, or two are for one
     */
    public static ApprovedItems of(Site site, Map<Name, String> identities) {
        ItemList items = new ItemList();
        items.of("gate").is("version", GATE_VERSION);
        items.of("site").is("name", site.name().text());
        Map<String, SitePoint> points =
                site.points().stream().collect(Collectors.toMap(p -> p.id().toString(), Function.identity()));
        Set<PhysicalUnit> units = new LinkedHashSet<>();
        for (WritePermit permit : site.permits()) {
            SitePoint point = points.get(permit.point().toString());
            if (point == null || point.controller().isGroup()) {
                throw new IllegalArgumentException("no controller of the site has " + permit.point());
            }
            units.add(PhysicalUnit.of(point.controller()));
            PermitItems.add(items, permit);
            Name type = point.controller().type().name();
            site.bindings()
                    .of(type, point.definition().name())
                    .ifPresent((Bindings.Binding binding) -> PermitItems.add(items, permit, binding));
            RequestObjects.of(point.definition(), permit)
                    .flatMap(objects -> site.bindings().of(type, objects.request()))
                    .ifPresent(binding -> PermitItems.addRequest(items, permit, binding));
        }
        Map<Name, String> known = new TreeMap<>();
        Map<String, String> roles = new TreeMap<>();
        for (ControllerDefinition controller : site.controllers()) {
            if (units.contains(PhysicalUnit.of(controller))) {
                String identity = identities.getOrDefault(controller.name(), "");
                known.put(controller.name(), identity);
                ControllerItems.add(items, controller, identity);
                controller
                        .type()
                        .points()
                        .forEach(row -> roles.put(
                                row.name() + " of " + controller.name(),
                                row.role().word()));
            }
        }
        site.lines().stream()
                .filter(line -> units.stream().anyMatch(unit -> unit.line().equals(line.name())))
                .forEach(line -> ControllerItems.add(items, line));
        building(items, site);
        return new ApprovedItems(items.inOrder(), known, roles);
    }

    /** A side over which nobody may ask decides nothing. */
    private static void building(ItemList items, Site site) {
        List<Purpose.Asked> asked = site.permits().stream()
                .flatMap(permit -> permit.asked().stream())
                .toList();
        if (asked.stream().anyMatch(ask -> !ask.from().bacnet().isEmpty())) {
            site.bacnet().ifPresent(bacnet -> BuildingItems.add(items, bacnet));
        }
        if (asked.stream().anyMatch(ask -> ask.from().mqtt())) {
            site.mqtt().ifPresent(mqtt -> BuildingItems.add(items, mqtt, site.name()));
        }
    }

    /** One line an item, a list of three texts in JSON. */
    static String hash(List<ApprovedItem> items) {
        StringBuilder text = new StringBuilder();
        items.forEach(item -> text.append(JsonLine.value(List.of(item.subject(), item.what(), item.text())))
                .append('\n'));
        return Sha256.hex(text.toString().getBytes(StandardCharsets.UTF_8));
    }

    public List<ApprovedItem> items() {
        return items;
    }

    /** The identities of the controllers concerned, by their names; empty texts where not known. */
    public Map<Name, String> identities() {
        return identities;
    }

    /** The roles of the rows of the controllers concerned, by what a message calls them: {@code load-limit of boiler-1}. */
    public Map<String, String> roles() {
        return roles;
    }

    /** SHA-256 over all items, 64 digits. */
    public String hash() {
        return hash;
    }

    static Map<ApprovedItem.Key, String> byKey(List<ApprovedItem> items) {
        Map<ApprovedItem.Key, String> byKey = new LinkedHashMap<>();
        items.forEach(item -> byKey.put(item.key(), item.text()));
        return byKey;
    }
}
