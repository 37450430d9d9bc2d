package burnerbridge.line;

import burnerbridge.line.frame.Framing;
import burnerbridge.line.frame.Pdu;
import burnerbridge.site.AddressRange;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.guard.Place;
import burnerbridge.site.guard.Protected;
import burnerbridge.site.permit.Functions;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The last check before bytes leave, whatever made them: it looks at the whole frame and at nothing else. A read must
 * be of functions 1 to 4 and as long as one. A write must equal one of the line's templates in everything but the
 * value, and what it writes, worked out again from the bytes, must meet nothing that is protected.
 */
final class LastCheck {
    private final Framing framing;
    private final List<WriteTemplate> templates;
    private final Map<UnitId, Guard> guards;

    /**
     * @param templates all that may be written; none where the line is only read
     * @param guards of the units that they write
     */
    LastCheck(Framing framing, List<WriteTemplate> templates, Map<UnitId, Guard> guards) {
        this.framing = framing;
        this.templates = List.copyOf(templates);
        this.guards = Map.copyOf(guards);
    }

    /**
     * Lets a frame pass that reads.
     *
     * @throws IllegalStateException for any other; it must not be sent
     */
    byte[] requireRead(byte[] frame) {
        OpenedFrame opened = opened(frame);
        if (opened.function() < 1 || opened.function() > 4) {
            throw refusal("only functions 1 to 4 read (was function " + opened.function() + ")", frame);
        }
        if (!opened.isAsLongAsARead()) {
            throw refusal("a request to read is not " + opened.length() + " bytes long without its frame", frame);
        }
        return frame;
    }

    /**
     * Lets a frame pass that writes as one of the templates says.
     *
     * @throws IllegalStateException for any other, and where it reaches what is protected; it must not be sent
     */
    byte[] requireWrite(byte[] frame) {
        OpenedFrame opened = opened(frame);
        Optional<Place> written = opened.written().filter(place -> isAllowed(opened, place));
        if (written.isEmpty()) {
            throw refusal("only what one of the permits allows is written", frame);
        }
        Guard guard = guards.get(new UnitId(opened.unit()));
        if (guard == null) {
            throw refusal("nothing is known of what is protected in unit " + opened.unit(), frame);
        }
        against(guard, written.get().range()).ifPresent(met -> {
            throw refusal("it would reach " + met.why(), frame);
        });
        return frame;
    }

    /** The first that forbids a write of whole registers; who writes some bits of one may have to write all of it. */
    static Optional<Protected> against(Guard guard, AddressRange written) {
        return guard.against(List.of(Place.whole(written)));
    }

    private boolean isAllowed(OpenedFrame opened, Place written) {
        return templates.stream().anyMatch(template -> isOf(template, opened, written));
    }

    /** No template is of unit 0, so that nothing is ever written to everybody. */
    private static boolean isOf(WriteTemplate template, OpenedFrame opened, Place written) {
        return template.unit().number() == opened.unit()
                && template.function() == opened.function()
                && template.range().equals(written.range())
                && (template.function() != Functions.MASK || template.mask() == written.mask());
    }

    private OpenedFrame opened(byte[] frame) {
        return framing.opened(frame)
                .map(OpenedFrame::new)
                .orElseThrow(() -> refusal("what leaves must be one whole frame of this line", frame));
    }

    private static IllegalStateException refusal(String why, byte[] frame) {
        return new IllegalStateException(why + "; nothing was sent of " + Pdu.hex(frame));
    }
}
