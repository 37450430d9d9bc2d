package burnerbridge.simulator.modbus;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One client's connection: reads frames and answers them in their order until either side ends it. */
final class ClientConnection implements Runnable, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(ClientConnection.class);

    private final Socket socket;
    private final Units units;
    private final BooleanSupplier cablePulled;

    ClientConnection(Socket socket, Units units, BooleanSupplier cablePulled) {
        this.socket = socket;
        this.units = units;
        this.cablePulled = cablePulled;
    }

    @Override
    public void run() {
        try (Socket open = socket) {
            open.setTcpNoDelay(true);
            serve(new DataInputStream(new BufferedInputStream(open.getInputStream())), open.getOutputStream());
        } catch (IOException e) {
            LOG.debug("Modbus client {}: connection ended: {}", name(), e.toString());
        }
    }

    String name() {
        return String.valueOf(socket.getRemoteSocketAddress());
    }

    private void serve(DataInputStream in, OutputStream out) throws IOException {
        while (true) {
            Optional<MbapFrame> reply = units.replyTo(MbapFrame.readFrom(in));
            if (reply.isPresent() && !cablePulled.getAsBoolean()) {
                out.write(reply.get().bytes());
            }
        }
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
