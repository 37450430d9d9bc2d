package burnerbridge.state;

/** The state folder is that of another site. */
public final class OtherSiteException extends StateException {
    private static final long serialVersionUID = 1L;

    OtherSiteException(String message) {
        super(message);
    }
}
