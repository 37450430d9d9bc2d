package burnerbridge.line;

/**
 * How many replies of about one length came whole, and how many with a wrong checksum.
 *
 * @param whole answered
 * @param spoilt broken by their checksum
 */
public record ReplyShare(long whole, long spoilt) {
    public static final ReplyShare NONE = new ReplyShare(0, 0);

    public long all() {
        return whole + spoilt;
    }

    /** The spoilt among all, 0 to 1; 0 where there are none. */
    public double spoiltShare() {
        return all() == 0 ? 0 : (double) spoilt / all();
    }

    ReplyShare plus(ReplyShare other) {
        return new ReplyShare(whole + other.whole, spoilt + other.spoilt);
    }

    ReplyShare minus(ReplyShare before) {
        return new ReplyShare(whole - before.whole, spoilt - before.spoilt);
    }
}
