package burnerbridge.site;

import java.util.OptionalInt;

/**
 * How a value of several words is kept from being torn, where a controller does not update them together.
 *
 * @param twice whether it is read again until two readings agree
 * @param lowerWord the wire address of the less significant word where the two words of a value are
 *     apart; they are read high, low, high until both highs agree
 */
public record Consistency(boolean twice, OptionalInt lowerWord) {
    /** One transaction holds the whole value, and that is enough. */
    public static final Consistency ONE_READ = new Consistency(false, OptionalInt.empty());
}
