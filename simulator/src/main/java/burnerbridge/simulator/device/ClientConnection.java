package burnerbridge.simulator.device;

import burnerbridge.simulator.clock.Ticker;
import burnerbridge.simulator.frame.Frame;
import burnerbridge.simulator.frame.MbapFrame;
import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.net.Socket;
import java.time.Duration;
import java.util.Optional;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A client on Modbus TCP: reads frames and treats them in their order. */
final class ClientConnection implements Connection, Outlet {
    private static final Logger LOG = LoggerFactory.getLogger(ClientConnection.class);

    private final Socket socket;
    private final Behaviour behaviour;
    private final Ticker ticker;
    private final Consumer<Duration> refusal;

    /** @param refusal ends all connections and takes no other for so long */
    ClientConnection(Socket socket, Behaviour behaviour, Ticker ticker, Consumer<Duration> refusal) {
        this.socket = socket;
        this.behaviour = behaviour;
        this.ticker = ticker;
        this.refusal = refusal;
    }

    @Override
    public void run() {
        try (Socket open = socket) {
            open.setTcpNoDelay(true);
            serve(new DataInputStream(new BufferedInputStream(open.getInputStream())));
        } catch (IOException e) {
            LOG.debug("Modbus client {}: connection ended: {}", name(), e.toString());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public String name() {
        return String.valueOf(socket.getRemoteSocketAddress());
    }

    private void serve(DataInputStream in) throws IOException, InterruptedException {
        Player player = new Player(ticker, Optional.empty());
        while (true) {
            Frame request = MbapFrame.readFrom(in);
            long came = ticker.nanos();
            player.play(behaviour.toward(request, came), came, this);
        }
    }

    @Override
    public void write(byte[] bytes) throws IOException {
        socket.getOutputStream().write(bytes);
    }

    @Override
    public void hangUp() {
        close();
    }

    @Override
    public void refuse(Duration length) {
        refusal.accept(length);
    }

    @Override
    public void close() {
        try {
            socket.close();
        } catch (IOException e) {
            LOG.debug("Modbus client {}: closing: {}", name(), e.toString());
        }
    }
}
