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
     * @param addressOffset what was added to every address of its type, whose points are those that it has
     */
    public record OnLine(Name line, UnitId unit, boolean anyReplyUnit, int addressOffset) implements Source {}

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
            boolean anyReplyUnit,
            int addressOffset) {
        this(ordinal, name, new OnLine(line, unit, anyReplyUnit, addressOffset), type, instanceBase);
    }

    /** A controller that has a unit identifier for itself, and replies with it. */
    public ControllerDefinition(int ordinal, Name name, Name line, UnitId unit, ControllerType type, int instanceBase) {
        this(ordinal, name, line, unit, type, instanceBase, false, 0);
    }

    public boolean isGroup() {
        return source instanceof OfMembers;
    }

    /** Whether it is asked over a line; a group is on none. */
    public boolean isOn(Name line) {
        return source instanceof OnLine onLine && onLine.line().equals(line);
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

    /** @throws IllegalStateException for a group */
    public int addressOffset() {
        return onLine().addressOffset();
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
