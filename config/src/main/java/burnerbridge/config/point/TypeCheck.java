package burnerbridge.config.point;

import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.row.PointRow;
import burnerbridge.config.type.TypeRanges;
import burnerbridge.config.type.TypeReader;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.config.type.TypeSettings.PlacedRange;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.ReadRules;
import burnerbridge.site.Role;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Holds what {@code site.yaml} says of a type against its point list: the readable ranges and the identity. */
final class TypeCheck {
    private final TypeSettings type;
    private final List<PointDefinition> points;
    private final Map<Name, PointRow> rows;
    private final List<ReservedRow> reserved;
    private final Problems problems;

    /** @param rows where each point stands */
    TypeCheck(
            TypeSettings type,
            List<PointDefinition> points,
            Map<Name, PointRow> rows,
            List<ReservedRow> reserved,
            Problems problems) {
        this.type = type;
        this.points = points;
        this.rows = rows;
        this.reserved = reserved;
        this.problems = problems;
    }

    /** @param written every name of the list, also of rows that are wrong and are told as such */
    void run(Set<String> written) {
        type.ranges().forEach(this::checkReadable);
        type.identity().ifPresent(item -> checkIdentity(item, written));
    }

    private ReadRules rules() {
        return type.rules();
    }

    private void checkReadable(PlacedRange readable) {
        objection(readable)
                .ifPresent(why -> problems.error(
                        readable.place(),
                        "types." + type.name() + "." + TypeRanges.READABLE + ": "
                                + type.numbering().text(readable.range()) + " reaches into " + why));
    }

    private Optional<String> objection(PlacedRange readable) {
        return reserved.stream()
                .filter(row -> rules().overlap(row.range(), readable.range()))
                .findFirst()
                .map(row -> type.numbering().text(row.range()) + ", which line " + row.line() + " of " + type.points()
                        + " reserves")
                .or(() -> points.stream()
                        .filter(point -> isNotToBeRead(point) && isWithin(point, readable))
                        .findFirst()
                        .map(point -> point.name() + " at " + point.addressText() + ", line "
                                + line(point) + " of " + type.points() + ", which "
                                + (point.options().writeOnly() ? "cannot be read" : "a read clears")));
    }

    private static boolean isNotToBeRead(PointDefinition point) {
        return point.consistency().once() || point.options().writeOnly();
    }

    private boolean isWithin(PointDefinition point, PlacedRange readable) {
        return point.addresses().stream().anyMatch(range -> rules().overlap(range, readable.range()));
    }

    private int line(PointDefinition point) {
        PointRow row = rows.get(point.name());
        return row == null ? 0 : row.place("name").line();
    }

    private void checkIdentity(YamlMap.Item item, Set<String> written) {
        Set<String> possible = points.stream()
                .filter(point -> point.role() == Role.IDENTITY && point.isPolled())
                .map(point -> point.name().text())
                .collect(Collectors.toSet());
        boolean isThere = points.stream().anyMatch(point -> point.name().text().equals(item.text()));
        if (!possible.contains(item.text()) && (isThere || !written.contains(item.text()))) {
            problems.error(
                    item.place(),
                    "types." + type.name() + "." + TypeReader.IDENTITY + ": must name a point of " + type.points()
                            + " that is read and has the role identity (was '" + item.text() + "')"
                            + NearestWord.hint(item.text(), possible));
        }
    }
}
