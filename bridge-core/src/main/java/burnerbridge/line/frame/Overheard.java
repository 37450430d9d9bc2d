package burnerbridge.line.frame;

import burnerbridge.line.Heard;
import burnerbridge.site.UnitId;
import org.jspecify.annotations.Nullable;

/**
 * One thing that was heard besides replies.
 *
 * @param unit the unit asked or replying; none for {@link Heard#NOISE}
 */
public record Overheard(Heard what, @Nullable UnitId unit) {
    static final Overheard NOISE = new Overheard(Heard.NOISE, null);

    /** For messages: {@code REQUEST of unit 3}. */
    @Override
    public String toString() {
        return unit == null ? what.toString() : what + " of unit " + unit;
    }
}
