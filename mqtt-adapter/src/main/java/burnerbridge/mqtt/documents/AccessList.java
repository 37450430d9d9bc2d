package burnerbridge.mqtt.documents;

import burnerbridge.site.MqttSettings;
import burnerbridge.site.Site;
import java.util.Locale;

/**
 * The narrowest rights that let the bridge work, in the form of mosquitto's {@code acl_file}. The bridge
 * writes two levels below its own site and nowhere else; the levels are not named one by one, because it
 * also has to clear the topics of points and controllers that were removed.
 */
final class AccessList {
    private static final String WHERE_NOT_SAID = "burner-bridge";

    private AccessList() {}

    static String of(MqttSettings settings, Site site) {
        String base = settings.root() + "/" + site.name();
        return String.format(Locale.ROOT, """
                # Rights on the broker for site %s, as mosquitto's acl_file; other brokers have the same in their own form.
                # The bridge is the only one that writes here. It reads its own descriptions, to clear what is no more.
                user %s
                topic write %s/+/+
                topic read %s/+/about

                # Whoever looks at the plant; one user each, with a password of its own.
                user reader
                topic read %s/#
                """, site.name(), settings.user().orElse(WHERE_NOT_SAID), base, base, base);
    }
}
