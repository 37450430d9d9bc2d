package burnerbridge.mqtt.broker;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;

/** Answers what every client sends with the same octets, one answer after the other, and closes; without any at once. */
final class ScriptedBroker implements AutoCloseable {
    private final ServerSocket server;
    private final List<byte[]> answers;

    /** @param answers in hexadecimal, with spaces between the octets */
    ScriptedBroker(String... answers) throws IOException {
        this.server = new ServerSocket(0, 100, InetAddress.getLoopbackAddress());
        this.answers = Stream.of(answers)
                .map(answer -> HexFormat.of().parseHex(answer.replace(" ", "")))
                .toList();
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
        if (answers.isEmpty()) {
            return;
        }
        for (byte[] answer : answers) {
            if (client.getInputStream().read(new byte[1_024]) < 0) {
                return;
            }
            client.getOutputStream().write(answer);
        }
        client.shutdownOutput();
        while (client.getInputStream().read() >= 0) {
            // Until the client is gone, so that nothing it sends resets the connection.
        }
    }
}
