package burnerbridge.mqtt;

import burnerbridge.simulator.broker.BrokerException;
import burnerbridge.simulator.broker.EmbeddedBroker;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.MqttSettings.Tls;
import burnerbridge.site.MqttSettings.Version;
import burnerbridge.site.Site;
import java.net.InetAddress;
import java.net.URI;
import java.util.List;
import java.util.Optional;

/**
 * The broker of the demo. It has no door, since it is for loopback only, and a door would be code that
 * nothing but this suite went through; TLS, passwords and rights are mosquitto's part here.
 */
abstract class EmbeddedContract extends BrokerContract {
    private final Version version;

    EmbeddedContract(Version version) {
        this.version = version;
    }

    @Override
    RunningBroker startBroker(Site of) {
        return new Embedded();
    }

    @Override
    MqttSettings settings(int port) {
        return new MqttSettings(
                List.of(URI.create("tcp://127.0.0.1:" + port)),
                "plant/heat",
                version,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Tls.NONE);
    }

    @Override
    List<String> readersOptions() {
        return List.of();
    }

    @Override
    boolean messagesExpire() {
        return version == Version.V5;
    }

    private static final class Embedded implements RunningBroker {
        private EmbeddedBroker running = started(0);
        private final int port = running.port();

        private static EmbeddedBroker started(int port) {
            try {
                EmbeddedBroker broker = new EmbeddedBroker(InetAddress.getLoopbackAddress(), port);
                broker.start();
                return broker;
            } catch (BrokerException e) {
                throw new AssertionError(e);
            }
        }

        @Override
        public int port() {
            return port;
        }

        @Override
        public void kill() {
            running.close();
        }

        @Override
        public void startAgain() {
            running = started(port);
        }
    }
}
