package burnerbridge.write.approval;

import burnerbridge.site.BacnetSettings;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Name;
import java.net.URI;
import java.net.URISyntaxException;
import java.util.stream.Collectors;

/** Who can ask: where the bridge listens and which brokers it trusts. Names and paths of credentials, never a secret. */
final class BuildingItems {
    private BuildingItems() {}

    /**
     * Where BACnet can be asked, and by whom. Not the device's name and vendor, nor how many requests and subscriptions
     * it takes, nor how objects are named: none of it lets another asker in.
     */
    static void add(ItemList items, BacnetSettings bacnet) {
        ItemList.Subject of = items.of("bacnet");
        of.is("device instance", bacnet.deviceInstance())
                .is("bind", bacnet.bind())
                .is("port", bacnet.port())
                .is("broadcast", bacnet.broadcast());
        bacnet.options()
                .foreignDevice()
                .ifPresent(foreign -> of.is("registers at", foreign.host())
                        .is("registers at port", foreign.port())
                        .is("registers for", foreign.seconds() + " s"));
    }

    static void add(ItemList items, MqttSettings mqtt, Name site) {
        items.of("mqtt")
                // In the order in which they are tried.
                .is("brokers", mqtt.brokers().stream().map(BuildingItems::text).collect(Collectors.joining(", ")))
                .is("root", mqtt.root())
                .is("version", mqtt.version().number())
                .is("client identifier", mqtt.clientIdOf(site))
                .is("user", mqtt.user())
                .is("password file", mqtt.passwordFile())
                .is("certificates of the broker", mqtt.tls().authority())
                .is("own certificate", mqtt.tls().certificate())
                .is("own key", mqtt.tls().key());
    }

    /** Without what stands before the host: a password may be in it. */
    private static String text(URI broker) {
        if (broker.getUserInfo() == null) {
            return broker.toString();
        }
        try {
            return new URI(
                            broker.getScheme(),
                            null,
                            broker.getHost(),
                            broker.getPort(),
                            broker.getPath(),
                            broker.getQuery(),
                            broker.getFragment())
                    .toString();
        } catch (URISyntaxException e) {
            throw new IllegalArgumentException("no broker is " + broker.getHost(), e);
        }
    }
}
