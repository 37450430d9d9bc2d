package burnerbridge.web;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A client that sends whatever it is told to. */
final class RawClient implements AutoCloseable {
    private static final int PATIENCE_MILLIS = 20_000;
    private static final Pattern STATUS = Pattern.compile("HTTP/1[.]1 ([0-9]{3}) [^\r]*\r\n.*", Pattern.DOTALL);

    private final Socket socket = new Socket();

    RawClient(int port) throws IOException {
        socket.setSoTimeout(PATIENCE_MILLIS);
        socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), PATIENCE_MILLIS);
    }

    static String request(String method, String target) {
        return method + " " + target + " HTTP/1.1\r\nHost: localhost\r\n\r\n";
    }

    /** What is answered to a text. */
    static String ask(int port, String text) throws IOException {
        try (RawClient client = new RawClient(port)) {
            client.send(text);
            return client.answer();
        }
    }

    static int status(String answer) {
        Matcher status = STATUS.matcher(answer);
        if (!status.matches()) {
            throw new AssertionError("no answer of HTTP: '" + answer + "'");
        }
        return Integer.parseInt(status.group(1));
    }

    static String body(String answer) {
        return answer.substring(answer.indexOf("\r\n\r\n") + 4);
    }

    void send(String text) throws IOException {
        send(text.getBytes(StandardCharsets.ISO_8859_1));
    }

    void send(byte[] octets) throws IOException {
        socket.getOutputStream().write(octets);
    }

    void endOutput() throws IOException {
        socket.shutdownOutput();
    }

    /** All that comes until the other end ends; what came before a reset is lost to Java. */
    String answer() throws IOException {
        try {
            return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        } catch (SocketException e) {
            return "";
        }
    }

    @Override
    public void close() throws IOException {
        socket.close();
    }
}
