package burnerbridge.mqtt.broker;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.util.HexFormat;

/** Sends every client that connects the same octets after its first packet, and then closes; without octets at once. */
final class ScriptedBroker implements AutoCloseable {
    private final ServerSocket server;
    private final byte[] answer;

    /** @param answer in hexadecimal, with spaces between the octets */
    ScriptedBroker(String answer) throws IOException {
        this.server = new ServerSocket(0, 100, InetAddress.getLoopbackAddress());
        this.answer = HexFormat.of().parseHex(answer.replace(" ", ""));
        Thread thread = new Thread(this::run, "scripted broker");
        thread.setDaemon(true);
        thread.start();
    }

    URI address() {
        return URI.create("mqtt://127.0.0.1:" + server.getLocalPort());
    }

    @Override
    public void close() throws IOException {
        server.close();
    }

    private void run() {
        while (!server.isClosed()) {
            try (Socket client = server.accept()) {
                serve(client);
            } catch (IOException e) {
                // The client, or the test, is over.
            }
        }
    }

    private void serve(Socket client) throws IOException {
        if (answer.length > 0 && client.getInputStream().read(new byte[1_024]) > 0) {
            client.getOutputStream().write(answer);
            client.shutdownOutput();
            while (client.getInputStream().read() >= 0) {
                // Until the client is gone, so that nothing it sends resets the connection.
            }
        }
    }
}
