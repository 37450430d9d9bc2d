package burnerbridge.line;

import burnerbridge.site.ControllerDefinition;
import java.time.Duration;

/**
 * What holds for a write besides what it writes.
 *
 * @param anyReplyUnit whether its reply may carry any unit identifier
 * @param pause how long its unit is left alone after a transaction before it is written
 */
public record WriteTerms(boolean anyReplyUnit, Duration pause) {
    public static final WriteTerms USUAL = new WriteTerms(false, Duration.ZERO);

    /** Those on which a controller is read. */
    public static WriteTerms of(ControllerDefinition controller) {
        return new WriteTerms(
                controller.anyReplyUnit(), controller.type().rules().pause());
    }
}
