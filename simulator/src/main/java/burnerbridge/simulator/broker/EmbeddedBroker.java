package burnerbridge.simulator.broker;

import java.net.InetAddress;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.apache.activemq.artemis.core.config.Configuration;
import org.apache.activemq.artemis.core.config.impl.ConfigurationImpl;
import org.apache.activemq.artemis.core.remoting.impl.netty.NettyAcceptor;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.core.server.ActiveMQServers;
import org.apache.activemq.artemis.core.server.JournalType;

/**
 * An MQTT 5 and 3.1.1 broker without passwords that keeps everything in memory: what it retained is gone
 * when it is closed. It is for loopback. No native library is loaded for it.
 *
 * <p>Its methods are for one thread at a time.
 */
public final class EmbeddedBroker implements AutoCloseable {
    private static final String ACCEPTOR = "mqtt";

    private final ActiveMQServer server;
    private boolean started;

    /**
     * @param port 0 for any free one
     */
    public EmbeddedBroker(InetAddress host, int port) throws BrokerException {
        try {
            this.server = ActiveMQServers.newActiveMQServer(configuration(host, port));
        } catch (Exception e) {
            throw new BrokerException("the broker cannot be set up for " + host + " port " + port, e);
        }
    }

    private static Configuration configuration(InetAddress host, int port) throws Exception {
        return new ConfigurationImpl()
                .setPersistenceEnabled(false)
                .setJournalType(JournalType.NIO)
                .setSecurityEnabled(false)
                .setJMXManagementEnabled(false)
                .setCriticalAnalyzer(false)
                .setMaxDiskUsage(-1)
                .setMessageExpiryScanPeriod(500)
                .addAcceptorConfiguration(
                        ACCEPTOR,
                        "tcp://" + host.getHostAddress() + ":" + port
                                + "?protocols=MQTT&topicAliasMaximum=10&useEpoll=false");
    }

    /**
     * Listens; once.
     *
     * @throws BrokerException where the port is taken
     */
    public void start() throws BrokerException {
        if (started) {
            throw new IllegalStateException("the broker was started before");
        }
        started = true;
        List<Exception> failures = new CopyOnWriteArrayList<>();
        server.registerActivationFailureListener(failures::add);
        try {
            server.start();
        } catch (Exception e) {
            failures.add(e);
        }
        // A port that is taken is not thrown by start(), only told to the listener.
        if (!failures.isEmpty()) {
            close();
            throw new BrokerException("the broker cannot start", failures.get(0));
        }
    }

    /** The port that it listens on. */
    public int port() {
        if (server.getRemotingService().getAcceptor(ACCEPTOR) instanceof NettyAcceptor netty) {
            return netty.getActualPort();
        }
        throw new IllegalStateException("the broker does not listen");
    }

    @Override
    public void close() {
        try {
            server.stop();
        } catch (Exception e) {
            throw new IllegalStateException("the broker cannot be stopped", e);
        }
    }
}
