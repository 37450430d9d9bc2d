package burnerbridge.site;

/**
 * How the words of a value that takes several registers are put together.
 *
 * @param lowWordFirst whether the register at the lowest address holds the least significant word
 * @param swapBytes whether the two bytes of each word are swapped
 */
public record WordOrder(boolean lowWordFirst, boolean swapBytes) {
    public static final WordOrder HIGH_WORD_FIRST = new WordOrder(false, false);
}
