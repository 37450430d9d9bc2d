package burnerbridge.bacnet.edge;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.frame.Datagram;
import burnerbridge.model.VitalThread;
import java.io.IOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetSocketAddress;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Hands on what one socket receives, on a thread of its own, until the socket is closed. */
final class Listener {
    private static final Logger LOG = LoggerFactory.getLogger(Listener.class);
    /** Longer than any BACnet/IP datagram, so that one that is too long shows by its length. */
    private static final int ROOM = 2048;

    private final DatagramSocket socket;
    private final boolean toAll;
    private final Consumer<Datagram> receiver;
    private final CountDownLatch closing = new CountDownLatch(1);
    private final Thread thread;

    Listener(String name, DatagramSocket socket, boolean toAll, Consumer<Datagram> receiver) {
        this.socket = socket;
        this.toAll = toAll;
        this.receiver = receiver;
        this.thread = new Thread(this::run, name);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler(new VitalThread());
    }

    void start() {
        thread.start();
    }

    private void run() {
        DatagramPacket packet = new DatagramPacket(new byte[ROOM], ROOM);
        while (!socket.isClosed()) {
            try {
                packet.setLength(ROOM);
                socket.receive(packet);
                receiver.accept(new Datagram(
                        Octets.copyOf(packet.getData(), packet.getLength()),
                        (InetSocketAddress) packet.getSocketAddress(),
                        toAll));
            } catch (IOException e) {
                pauseUnlessClosed(e);
            } catch (RuntimeException e) {
                // A defect of ours that one datagram found must not make the port deaf.
                LOG.error("{}: a datagram was not handled", thread.getName(), e);
            }
        }
    }

    private void pauseUnlessClosed(IOException e) {
        if (socket.isClosed()) {
            return;
        }
        LOG.warn("{}: receives nothing: {}", thread.getName(), e.getMessage());
        try {
            closing.await(1, TimeUnit.SECONDS);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            socket.close();
        }
    }

    /** Waits for the thread after its socket was closed. */
    void join(long millis) throws InterruptedException {
        closing.countDown();
        thread.join(millis);
    }
}
