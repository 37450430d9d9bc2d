package burnerbridge.mqtt.watch;

import java.util.Locale;

/** How a connection ended. */
public enum Ending {
    NOT_OPENED,
    LOST,
    /** It had not held for long. */
    SOON_LOST,
    /** The broker says that another client connected under our client identifier. */
    TAKEN,
    /** It was lost as it is lost when another client takes it, and the broker said nothing. */
    CONTESTED,
    /** We ended it ourselves, to connect with renewed certificates or another password. */
    RENEWED;

    /** The word used in messages: {@code soon-lost}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
