package burnerbridge.write.ask;

/** What the gate says to an ask at once. Admitted is not written: what was written is known after the read-back. */
public sealed interface Decision {

    /** The ask holds its slot. */
    record Admitted(Standing standing) implements Decision {}

    /**
     * The first question that was answered with no.
     *
     * @param sentence for people: names the point, the limit and the value
     */
    record Refused(Question question, String sentence) implements Decision {}

    /** What follows from an admitted ask. */
    enum Standing {
        /** It wins and will be written. */
        TO_BE_WRITTEN,
        /** It is what stands already: its time begins anew, and nothing is written. */
        RENEWED,
        /** A slot before it wins. */
        BEHIND,
        /** The slot is empty now. */
        GIVEN_UP
    }
}
