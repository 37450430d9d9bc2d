package burnerbridge.site;

import burnerbridge.site.unit.Basis;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What is counted of the controllers of a group: of how many a bit with a meaning is 1. */
public enum GroupCount {
    FIRING(Meaning.FLAME, "how many see a flame"),
    AVAILABLE(Meaning.AVAILABLE, "how many would start if heat were called for"),
    LOCKED_OUT(Meaning.LOCKOUT, "how many have locked out and wait for a person");

    private final Meaning meaning;
    private final String description;

    GroupCount(Meaning meaning, String description) {
        this.meaning = meaning;
        this.description = description;
    }

    /** What a controller's bit must mean to be counted. */
    public Meaning meaning() {
        return meaning;
    }

    /** Of the point that holds the count: {@code locked-out}. */
    public Name pointName() {
        return new Name(name().toLowerCase(Locale.ROOT).replace('_', '-'));
    }

    /** The count that a point of a group holds. */
    public static GroupCount of(PointDefinition point) {
        for (GroupCount count : values()) {
            if (count.pointName().equals(point.name())) {
                return count;
            }
        }
        throw new IllegalArgumentException(point.name() + " is no count of a group");
    }

    /** The bit of a controller that is counted; empty where its list has none. */
    public Optional<PointDefinition> counted(ControllerDefinition controller) {
        return controller.type().points().stream()
                .filter(PointDefinition::isPolled)
                .filter(p -> p.options().meaning().filter(m -> m == meaning).isPresent())
                .findFirst();
    }

    /** The point that holds it; it may grow as old as the slowest of what it counts. */
    public PointDefinition point(List<ControllerDefinition> members) {
        Duration staleAfter = members.stream()
                .flatMap(member -> counted(member).stream())
                .map(PointDefinition::staleAfter)
                .max(Comparator.naturalOrder())
                .orElseThrow(() -> new IllegalArgumentException("no member tells " + meaning.word()));
        return new PointDefinition(
                pointName(),
                description,
                RegisterTable.INPUT_REGISTER,
                0,
                "",
                new PointFormat.Count(),
                Scaling.NONE,
                Unit.NONE,
                Role.STATUS,
                Duration.ZERO,
                staleAfter,
                States.NONE,
                BigDecimal.ZERO,
                ObjectKind.ANALOG_INPUT,
                Limits.NONE,
                Consistency.ONE_READ,
                Basis.NONE,
                PointOptions.NONE);
    }
}
