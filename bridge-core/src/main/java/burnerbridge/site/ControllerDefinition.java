package burnerbridge.site;

import java.util.List;

/**
 * One burner controller, or a group of them that looks like one: it has points, and they are computed.
 *
 * @param ordinal its position in the site, from 0; groups come after all controllers
 * @param source where its points come from
 * @param instanceBase what is added to a binding's offset to make a BACnet object instance
 */
public record ControllerDefinition(int ordinal, Name name, Source source, ControllerType type, int instanceBase) {

    /** Where points come from. */
    public sealed interface Source {}

    /**
     * A controller that is asked.
     *
     * @param anyReplyUnit whether its replies may carry any unit identifier, as those of some gateways do
     */
    public record OnLine(Name line, UnitId unit, boolean anyReplyUnit) implements Source {}

    /** A group, whose points are computed from those of its members. */
    public record OfMembers(List<ControllerDefinition> members) implements Source {
        public OfMembers {
            members = List.copyOf(members);
        }
    }

    public ControllerDefinition(
            int ordinal,
            Name name,
            Name line,
            UnitId unit,
            ControllerType type,
            int instanceBase,
            boolean anyReplyUnit) {
        this(ordinal, name, new OnLine(line, unit, anyReplyUnit), type, instanceBase);
    }

    /** A controller whose replies carry its own unit identifier. */
    public ControllerDefinition(int ordinal, Name name, Name line, UnitId unit, ControllerType type, int instanceBase) {
        this(ordinal, name, line, unit, type, instanceBase, false);
    }

    public boolean isGroup() {
        return source instanceof OfMembers;
    }

    /** The controllers of a group; none of one that is asked. */
    public List<ControllerDefinition> members() {
        return source instanceof OfMembers group ? group.members() : List.of();
    }

    /** @throws IllegalStateException for a group, which is on no line */
    public Name line() {
        return onLine().line();
    }

    /** @throws IllegalStateException for a group */
    public UnitId unit() {
        return onLine().unit();
    }

    /** @throws IllegalStateException for a group */
    public boolean anyReplyUnit() {
        return onLine().anyReplyUnit();
    }

    private OnLine onLine() {
        if (source instanceof OnLine onLine) {
            return onLine;
        }
        throw new IllegalStateException(name + " is a group and on no line");
    }

    /** The ordinal alone: a controller is a key in many maps, and its type holds a whole point list. */
    @Override
    public int hashCode() {
        return ordinal;
    }
}
