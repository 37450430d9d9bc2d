package burnerbridge.write.ask;

import java.math.BigDecimal;

/** What became of an ask that was admitted, as far as its asker waits for it. */
public sealed interface Fate {

    /**
     * What it asks for stands in the registers, and was read back from there.
     *
     * @param value as the registers have it
     */
    record Written(BigDecimal value) implements Fate {}

    /**
     * It holds its slot, and another one wins.
     *
     * @param winner the slot that wins
     * @param by who holds it
     */
    record Behind(int winner, Source by) implements Fate {}

    /** The slot is empty now. What follows from that is told as events. */
    record GivenUp() implements Fate {}

    /**
     * A question that was answered with yes at first was answered with no when it was its turn; nothing was sent.
     *
     * @param kept whether it still holds its slot, and is tried again when the reason has passed
     */
    record Withheld(Question question, String sentence, boolean kept) implements Fate {}

    /**
     * It was sent, and its registers hold something else, or what they hold is not known.
     *
     * @param code as in the audit: {@code not-taken}, {@code refused-by-controller}, {@code unknown}
     */
    record Failed(String code, String sentence) implements Fate {}

    /** It was not sent, since something newer took its place before its turn. */
    record Overtaken() implements Fate {}

    /** Waits for the fate of one ask. */
    interface Follower {
        /** Told once, on any thread, which must not wait; for what is known at once, before the ask returns. */
        void became(Fate fate);
    }
}
