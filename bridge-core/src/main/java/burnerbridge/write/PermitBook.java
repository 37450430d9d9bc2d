package burnerbridge.write;

import burnerbridge.line.WriteTemplate;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.guard.PhysicalUnit;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.write.encode.Templates;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.stream.Collectors;

/** What may be written on a site, and what of its units never can be. Immutable. */
public final class PermitBook {
    private final Site site;
    private final Map<PointId, Permitted> permitted = new LinkedHashMap<>();
    private final Map<PhysicalUnit, Guard> guards = new LinkedHashMap<>();

    /**
     * @param known what is known of a unit from before beside what the site says now
     * @throws IllegalArgumentException for a permit that the loader would have refused
     */
    public PermitBook(Site site, BiFunction<PhysicalUnit, Guard, Guard> known) {
        this.site = site;
        Map<PointId, SitePoint> points = new HashMap<>();
        if (!site.permits().isEmpty()) {
            site.points().forEach(point -> points.put(point.id(), point));
        }
        for (WritePermit permit : site.permits()) {
            SitePoint point = points.get(permit.point());
            if (point == null || point.controller().isGroup()) {
                throw new IllegalArgumentException(permit.point() + " is no point of a controller of this site");
            }
            permitted.put(permit.point(), new Permitted(point, permit, Templates.of(point, permit)));
        }
        Set<PhysicalUnit> written = permitted.values().stream()
                .map(one -> PhysicalUnit.of(one.controller()))
                .collect(Collectors.toSet());
        Guard.of(site.controllers().stream()
                        .filter(controller -> written.contains(PhysicalUnit.of(controller)))
                        .toList())
                .forEach((unit, guard) -> guards.put(unit, known.apply(unit, guard)));
    }

    boolean isKnown(PointId id) {
        return site.owners().stream()
                .filter(owner -> owner.name().equals(id.controller()))
                .flatMap(owner -> owner.type().points().stream())
                .anyMatch(row -> row.name().equals(id.point()));
    }

    Optional<Permitted> of(PointId id) {
        return Optional.ofNullable(permitted.get(id));
    }

    Collection<Permitted> all() {
        return permitted.values();
    }

    /** Whether anything could ever be written. */
    public boolean isEmpty() {
        return permitted.isEmpty();
    }

    Guard guard(Permitted of) {
        return Objects.requireNonNull(guards.get(PhysicalUnit.of(of.controller())));
    }

    /** All that may ever be sent over a line. Where a permit meets what cannot be written, it is left out. */
    public List<WriteTemplate> templates(Name line) {
        return permitted.values().stream()
                .filter(one -> one.controller().line().equals(line))
                .filter(this::isOnItsLine)
                .map(Permitted::template)
                .toList();
    }

    /** Whether its line knows its template. */
    boolean isOnItsLine(Permitted one) {
        return guard(one).against(one.template().range()).isEmpty();
    }

    /** What of the units of a line to which a permit writes can never be written. */
    public Map<UnitId, Guard> guards(Name line) {
        Map<UnitId, Guard> ofLine = new LinkedHashMap<>();
        guards.forEach((unit, guard) -> {
            if (unit.line().equals(line)) {
                ofLine.put(unit.unit(), guard);
            }
        });
        return ofLine;
    }
}
