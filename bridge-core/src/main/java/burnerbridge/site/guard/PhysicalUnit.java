package burnerbridge.site.guard;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.UnitId;

/** What answers to one unit identifier of one line: one or more controllers that share their registers. */
public record PhysicalUnit(Name line, UnitId unit) {

    /** @throws IllegalStateException for a group, which is in no unit */
    public static PhysicalUnit of(ControllerDefinition controller) {
        return new PhysicalUnit(controller.line(), controller.unit());
    }

    /** For messages: {@code unit 1 of line boiler-house}. */
    @Override
    public String toString() {
        return "unit " + unit + " of line " + line;
    }
}
