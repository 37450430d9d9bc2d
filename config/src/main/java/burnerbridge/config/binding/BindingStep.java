package burnerbridge.config.binding;

import burnerbridge.config.problem.Problems.Place;
import burnerbridge.site.RequestObjects;

/**
 * Something that {@code check --bind} does to the bindings.
 *
 * @param place of the row; line 0 where there is none yet
 * @param finding what {@code check} says of it while it is not done; empty where that is nothing to tell
 * @param done what {@code check --bind} says once it is; empty likewise
 */
record BindingStep(Kind kind, Place place, String finding, String done) {

    /** What is done, and by that how loudly it is told. */
    enum Kind {
        ADDED,
        /** The same of an object of a write permit. */
        PERMIT_ADDED,
        RENAMED,
        GONE,
        BACK,
        OTHER_OBJECT,
        STATES_NUMBERED,
        READ_FROM_ELSEWHERE,
        EXCHANGED,
        PLACE_NOTED,
        NO_INSTANCE_LEFT
    }

    static BindingStep added(BindingRow row) {
        Kind kind = isOfPermit(row) ? Kind.PERMIT_ADDED : Kind.ADDED;
        return new BindingStep(kind, row.place(), row.id(), row.id() + " has " + row.objectText());
    }

    static BindingStep renamed(BindingRow before, BindingRow after) {
        return new BindingStep(
                Kind.RENAMED, after.place(), "", before.id() + " is now " + after.id() + ", " + after.objectText());
    }

    static BindingStep gone(BindingRow row) {
        return new BindingStep(
                Kind.GONE,
                row.place(),
                row.id() + (isOfPermit(row) ? " is of no point and no write permit any more" : " is in no point list")
                        + "; its offset " + row.offset()
                        + " stays taken, and 'check --bind' marks it gone",
                row.id() + " is gone; " + row.objectText() + " is given to no other point");
    }

    static BindingStep back(BindingRow row) {
        return new BindingStep(
                Kind.BACK,
                row.place(),
                row.id() + " is marked gone but is " + (isOfPermit(row) ? "of a write permit" : "in the point list")
                        + " again; it stays off BACnet until 'check --bind'"
                        + " gives it back " + row.objectText(),
                row.id() + " is back with " + row.objectText());
    }

    static BindingStep otherObject(BindingRow before, String after) {
        return new BindingStep(
                Kind.OTHER_OBJECT,
                before.place(),
                before.id() + " is bound as " + before.object().word() + " but its row makes it " + after
                        + "; it stays off BACnet until 'check --bind' gives it one",
                before.id() + " is now " + after + "; its " + before.objectText() + " is given to no other point");
    }

    static BindingStep statesNumbered(BindingRow row, String states) {
        return new BindingStep(
                Kind.STATES_NUMBERED,
                row.place(),
                row.id() + " has states without a multi-state number (" + states
                        + "); they are out of range on BACnet until 'check --bind' gives them the next ones",
                row.id() + " has numbers for its states " + states);
    }

    static BindingStep readFromElsewhere(BindingRow before, String at) {
        String told =
                before.id() + " was read from " + before.at() + " and is now read from " + at + "; its instance stays";
        return new BindingStep(Kind.READ_FROM_ELSEWHERE, before.place(), told, told);
    }

    static BindingStep exchanged(BindingRow before, BindingRow other, String at) {
        String told = before.id() + " and " + other.point() + " are now each read from where the other was, "
                + before.point() + " from " + at + "; instances go with the names";
        return new BindingStep(
                Kind.EXCHANGED,
                before.place(),
                told + ". If the names were exchanged and not the addresses, say so: 'check --bind --renamed "
                        + before.id() + "=" + other.point() + " --renamed " + other.id() + "=" + before.point() + "'",
                told);
    }

    static BindingStep placeNoted(BindingRow row) {
        return new BindingStep(Kind.PLACE_NOTED, row.place(), "", "");
    }

    static BindingStep noInstanceLeft(String point) {
        String told = point + " stays off BACnet: past the instance-base of its controllers no instance is free";
        return new BindingStep(Kind.NO_INSTANCE_LEFT, Place.wholeFile(BindingsFile.NAME), told, told);
    }

    /** By its name, as an object of a permit has it. */
    static boolean isOfPermit(BindingRow row) {
        return row.point().text().endsWith(RequestObjects.REQUEST)
                || row.point().text().endsWith(RequestObjects.LEASE);
    }
}
