package burnerbridge.line;

import burnerbridge.site.UnitId;

/** What is asked of one unit in one transaction: a read, or a write that was encoded. */
public interface Request {

    UnitId unit();

    /** The function code that asks it. */
    int function();

    /** What holds for it besides. */
    ReadTerms terms();

    /** Whether a reply that carries a unit identifier can be the reply to this request. */
    default boolean takesReplyOf(int number) {
        return terms().anyReplyUnit() || number == unit().number();
    }
}
