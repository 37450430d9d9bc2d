package burnerbridge.poll.agenda;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.Registers;
import burnerbridge.plan.ReadBlock;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The replies of one block until they make a whole that is not torn: one reply; or two in a row that
 * agree; or, for words that are apart, high, low and the same high again.
 */
public final class Gathering {
    /** Transactions after which a value that changes all the time is given up until it is due again. */
    public static final int MOST_REPLIES = 7;

    private final ReadBlock block;
    private @Nullable Answered first;
    private @Nullable Answered lower;
    private int replies;

    Gathering(ReadBlock block) {
        this.block = block;
    }

    public boolean isFresh() {
        return replies == 0;
    }

    public boolean isGivenUp() {
        return replies >= MOST_REPLIES;
    }

    /** What to ask next. */
    ReadRequest next() {
        boolean wantsLower = block.isSplit() && first != null && lower == null;
        return block.requests().get(wantsLower ? 1 : 0);
    }

    /** Begins anew: what was gathered is of no use after trouble, nor after it made a whole. */
    public void clear() {
        first = null;
        lower = null;
        replies = 0;
    }

    /** Takes the reply to {@link #next}; the whole, once it is one, with the time of its oldest part. */
    public Optional<Answered> take(Answered reply) {
        replies++;
        if (block.isSplit()) {
            return takeWord(reply);
        }
        Answered before = first;
        first = reply;
        if (!block.twice()) {
            return Optional.of(reply);
        }
        return Optional.ofNullable(before).filter(older -> older.data().equals(reply.data()));
    }

    private Optional<Answered> takeWord(Answered reply) {
        Answered high = first;
        Answered low = lower;
        if (high != null && low == null) {
            lower = reply;
            return Optional.empty();
        }
        first = reply;
        lower = null;
        if (high == null || low == null || !high.data().equals(reply.data())) {
            return Optional.empty();
        }
        Registers whole = Registers.of(high.data().word(0), low.data().word(0));
        return Optional.of(new Answered(whole, high.askedAt()));
    }
}
