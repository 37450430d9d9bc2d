package burnerbridge.config.point;

import burnerbridge.config.meaning.NamedStates;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.row.PointRow;
import burnerbridge.site.Condition;
import burnerbridge.site.Meaning.Kind;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reads the {@code when} column, {@code phase=5|6}, once every point of the list is known. */
final class ConditionCheck {
    static final String COLUMN = "when";

    private final Map<Name, PointDefinition> points = new LinkedHashMap<>();
    private final Map<Name, PointRow> rows;
    private final Set<String> written;

    /**
     * @param rows where each point stands
     * @param written every name of the list, also of rows that are wrong and are told as such
     */
    ConditionCheck(List<PointDefinition> list, Map<Name, PointRow> rows, Set<String> written) {
        list.forEach(point -> points.put(point.name(), point));
        this.rows = rows;
        this.written = written;
    }

    /** The points with their conditions. */
    List<PointDefinition> run() {
        return points.values().stream()
                .map(point -> condition(point)
                        .map(c -> point.with(point.options().with(c)))
                        .orElse(point))
                .toList();
    }

    private Optional<Condition> condition(PointDefinition point) {
        PointRow row = Objects.requireNonNull(rows.get(point.name()));
        if (!row.has(COLUMN)) {
            return Optional.empty();
        }
        String text = row.text(COLUMN);
        int equals = text.indexOf('=');
        if (equals <= 0 || equals == text.length() - 1) {
            row.error(
                    COLUMN,
                    "must be a point and its states, separated by |, like phase=5|6 or fuel=gas (was '" + text + "')");
            return Optional.empty();
        }
        String other = text.substring(0, equals).strip();
        return other(row, point, other)
                .flatMap(p -> new NamedStates(row, COLUMN, p.name().text(), p.states())
                        .read(text.substring(equals + 1))
                        .map(states -> new Condition(p.name(), states)));
    }

    private Optional<PointDefinition> other(PointRow row, PointDefinition point, String name) {
        Optional<PointDefinition> other =
                Name.objectionTo(name).isEmpty() ? Optional.ofNullable(points.get(new Name(name))) : Optional.empty();
        if (other.isEmpty()) {
            if (!written.contains(name)) {
                row.error(
                        COLUMN,
                        "must begin with a point of this list that is a bit or has states (was '" + name + "')"
                                + NearestWord.hint(name, possible()));
            }
            return other;
        }
        String objection = objection(point, other.get());
        if (!objection.isEmpty()) {
            row.error(COLUMN, objection);
            return Optional.empty();
        }
        return other;
    }

    private Set<String> possible() {
        Set<String> names = new TreeSet<>();
        points.values().stream()
                .filter(ConditionCheck::hasStates)
                .forEach(p -> names.add(p.name().text()));
        return names;
    }

    private static boolean hasStates(PointDefinition point) {
        Kind kind = Kind.of(point.format(), point.states());
        return kind == Kind.BIT || kind == Kind.STATE;
    }

    private String objection(PointDefinition point, PointDefinition other) {
        if (other.name().equals(point.name())) {
            return "a point does not hang on itself";
        }
        if (!hasStates(other)) {
            return other.name() + " is "
                    + Kind.of(other.format(), other.states()).withArticle()
                    + ", and a condition hangs on a bit or on a point with states";
        }
        if (!other.isPolled()) {
            return other.name() + " is not read, so that nobody would know its state";
        }
        return Objects.requireNonNull(rows.get(other.name())).has(COLUMN)
                ? other.name() + " has a condition itself, and conditions make no chains"
                : "";
    }
}
