package burnerbridge.line;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.atomic.AtomicInteger;

/** A Modbus TCP peer that does, request by request, exactly what a test says. */
final class ScriptedPeer implements AutoCloseable {
    /** One act of the script: what to do with a request of 12 bytes. */
    interface Act {
        void play(byte[] request, OutputStream out, Socket socket) throws IOException, InterruptedException;
    }

    final List<byte[]> requests = new CopyOnWriteArrayList<>();
    final AtomicInteger connections = new AtomicInteger();
    private final BlockingQueue<Act> script = new LinkedBlockingQueue<>();
    private final List<Socket> sockets = new CopyOnWriteArrayList<>();
    private final ServerSocket server;

    ScriptedPeer() {
        try {
            server = new ServerSocket(0, 10, InetAddress.getLoopbackAddress());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        start("peer", this::accept);
    }

    int port() {
        return server.getLocalPort();
    }

    ScriptedPeer then(Act act) {
        script.add(act);
        return this;
    }

    /** Answers with a data unit in a right header. */
    ScriptedPeer answers(String pdu) {
        return then((request, out, socket) -> out.write(reply(request, pdu)));
    }

    static byte[] reply(byte[] request, String pdu) {
        byte[] data = HexFormat.of().parseHex(pdu.replace(" ", ""));
        byte[] frame = new byte[7 + data.length];
        frame[0] = request[0];
        frame[1] = request[1];
        frame[5] = (byte) (data.length + 1);
        frame[6] = request[6];
        System.arraycopy(data, 0, frame, 7, data.length);
        return frame;
    }

    private void accept() {
        try {
            while (true) {
                Socket socket = server.accept();
                socket.setTcpNoDelay(true);
                connections.incrementAndGet();
                sockets.add(socket);
                start("peer connection", () -> serve(socket));
            }
        } catch (IOException e) {
            // Closed.
        }
    }

    private void serve(Socket socket) {
        try (socket) {
            DataInputStream in = new DataInputStream(socket.getInputStream());
            while (true) {
                byte[] request = new byte[12];
                in.readFully(request);
                requests.add(request);
                script.take().play(request, socket.getOutputStream(), socket);
            }
        } catch (IOException | InterruptedException e) {
            // The connection ended.
        }
    }

    private static void start(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    @Override
    public void close() {
        try {
            server.close();
            for (Socket socket : sockets) {
                socket.close();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
