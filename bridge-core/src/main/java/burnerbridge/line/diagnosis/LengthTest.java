package burnerbridge.line.diagnosis;

import burnerbridge.line.ReplyShare;

/**
 * Whether wrong checksums rise with the length of replies: at least three times the share in long ones, out of
 * enough of both, and by more than three standard errors of the difference of two shares, so that chance hardly
 * ever says so.
 */
final class LengthTest {
    private static final int FEWEST_OF_EACH = 20;
    private static final int FEWEST_SPOILT = 5;
    private static final int TIMES = 3;
    private static final double STANDARD_ERRORS = 3;

    private LengthTest() {}

    static boolean rises(ReplyShare shortReplies, ReplyShare longReplies) {
        return shortReplies.all() >= FEWEST_OF_EACH
                && longReplies.all() >= FEWEST_OF_EACH
                && longReplies.spoilt() >= FEWEST_SPOILT
                && longReplies.spoiltShare() >= TIMES * shortReplies.spoiltShare()
                && isBeyondChance(shortReplies, longReplies);
    }

    private static boolean isBeyondChance(ReplyShare one, ReplyShare other) {
        double together = (double) (one.spoilt() + other.spoilt()) / (one.all() + other.all());
        double variance = together * (1 - together) * (1.0 / one.all() + 1.0 / other.all());
        return other.spoiltShare() - one.spoiltShare() > STANDARD_ERRORS * Math.sqrt(variance);
    }
}
