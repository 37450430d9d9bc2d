package burnerbridge.mqtt.documents;

import burnerbridge.site.MqttSettings;
import burnerbridge.site.Site;
import burnerbridge.site.permit.WriteCaution;
import java.util.List;
import java.util.Locale;

/**
 * The narrowest rights that let the bridge work, in the form of mosquitto's {@code acl_file}. The bridge
 * writes two levels below its own site and nowhere else; the levels are not named one by one, because it
 * also has to clear the topics of points and controllers that were removed. Asks it reads, and their answers it writes, of
 * those points alone for which MQTT may ask.
 */
final class AccessList {
    private static final String WHERE_NOT_SAID = "burner-bridge";

    private AccessList() {}

    static String of(MqttSettings settings, Site site) {
        String base = settings.root() + "/" + site.name();
        List<WritablePoint> writable = WritablePoint.all(site);
        List<WritablePoint> asked =
                writable.stream().filter(WritablePoint::mayBeAskedFor).toList();
        return readOnly(settings, site, base, bridge(base, writable, asked)) + askers(base, asked);
    }

    /** What the bridge needs besides, and nothing where nothing may be written. */
    private static String bridge(String base, List<WritablePoint> writable, List<WritablePoint> asked) {
        if (writable.isEmpty()) {
            return "";
        }
        StringBuilder rights = new StringBuilder("# Permits, those of former points included, which it clears.\n");
        rights.append("topic write ").append(base).append("/+/+/permit\n");
        asked.forEach(one -> {
            String point = base + "/" + one.levels();
            rights.append("topic read ").append(point).append("/ask\n");
            rights.append("topic write ").append(point).append("/reply/#\n");
        });
        return rights.toString();
    }

    private static String askers(String base, List<WritablePoint> asked) {
        if (asked.isEmpty()) {
            return "";
        }
        StringBuilder rights = new StringBuilder("""

                # Whoever may ask that something be written. Whoever has this password can move what a permit allows, and
                # nobody but the broker asks who that is. Give each asker a user of its own, with a strong password or a
                # certificate, and take away every line that it does not need.
                """);
        WriteCaution.lines("Caution: " + WriteCaution.TEXT, 100)
                .forEach(line -> rights.append("# ").append(line).append('\n'));
        rights.append("user asker\n");
        asked.forEach(one -> {
            String point = base + "/" + one.levels();
            rights.append("topic write ").append(point).append("/ask\n");
            rights.append("topic read ").append(point).append("/reply/#\n");
            rights.append("topic read ").append(point).append("/permit\n");
            rights.append("topic read ").append(point).append("\n");
        });
        return rights.toString();
    }

    private static String readOnly(MqttSettings settings, Site site, String base, String further) {
        return String.format(
                Locale.ROOT,
                """
                # Rights on the broker for site %s, as mosquitto's acl_file; other brokers have the same in their own form.
                # The bridge is the only one that writes here%s. It reads its own descriptions, to clear what is no more.
                user %s
                topic write %s/+/+
                topic read %s/+/about
                %s
                # Whoever looks at the plant; one user each, with a password of its own.
                user reader
                topic read %s/#
                """,
                site.name(),
                further.contains("/ask") ? ", but for asks" : "",
                settings.user().orElse(WHERE_NOT_SAID),
                base,
                base,
                further,
                base);
    }
}
