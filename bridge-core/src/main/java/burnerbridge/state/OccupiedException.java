package burnerbridge.state;

/** Another program has the state folder now, and with it the lines of the site. */
public final class OccupiedException extends StateException {
    private static final long serialVersionUID = 1L;

    OccupiedException(String message) {
        super(message);
    }
}
