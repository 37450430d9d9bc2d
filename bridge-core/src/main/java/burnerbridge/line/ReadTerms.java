package burnerbridge.line;

import java.time.Duration;

/**
 * What holds for a request besides what it asks for.
 *
 * @param anyReplyUnit whether its reply may carry any unit identifier
 * @param once whether it is asked once and never again, since its reply cannot be had a second time
 * @param pause how long its unit is left alone after a transaction before it is asked again
 */
public record ReadTerms(boolean anyReplyUnit, boolean once, Duration pause) {
    public static final ReadTerms USUAL = new ReadTerms(false, false, Duration.ZERO);
}
