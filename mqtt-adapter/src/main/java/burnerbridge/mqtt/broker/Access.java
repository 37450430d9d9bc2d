package burnerbridge.mqtt.broker;

import javax.net.ssl.SSLSocketFactory;
import org.jspecify.annotations.Nullable;

/** What opens a broker's door: user, password and keys, as they were when they were read. It never shows them. */
public final class Access {
    /** Nothing: a broker that asks for nothing, unencrypted or by an authority that Java trusts. */
    public static final Access NONE = new Access(null, null, (SSLSocketFactory) SSLSocketFactory.getDefault());

    private final @Nullable String user;
    private final @Nullable String password;
    private final SSLSocketFactory keys;

    /**
     * @param user null without one, and then there is no password either
     * @param keys for encrypted connections
     */
    public Access(@Nullable String user, @Nullable String password, SSLSocketFactory keys) {
        this.user = user;
        this.password = user == null ? null : password;
        this.keys = keys;
    }

    @Nullable
    String user() {
        return user;
    }

    @Nullable
    String password() {
        return password;
    }

    SSLSocketFactory keys() {
        return keys;
    }

    @Override
    public String toString() {
        return user == null ? "nobody" : "a user with " + (password == null ? "no" : "a") + " password";
    }
}
