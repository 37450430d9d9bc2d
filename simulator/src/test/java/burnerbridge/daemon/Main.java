package burnerbridge.daemon;

import java.io.DataInputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;

/**
 * Stands in for the bridge in tests of the demo: reads two registers of the steam boiler, publishes two
 * points of each controller at the site's broker, ends on SIGTERM. A file {@code dies} in the site folder makes it end early.
 */
public final class Main {
    private Main() {}

    public static void main(String[] args) throws Exception {
        if (args.length != 2 || !args[0].equals("run")) {
            throw new IllegalArgumentException("run SITE expected");
        }
        Path site = Path.of(args[1]);
        System.err.println("stand-in runs on " + site);
        if (Files.exists(site.resolve("dies"))) {
            System.err.println("stand-in dies");
            System.exit(7);
        }
        CountDownLatch stop = new CountDownLatch(1);
        Runtime.getRuntime().addShutdownHook(new Thread(stop::countDown));
        bridge(Files.readString(site.resolve("site.yaml")), stop);
    }

    private static void bridge(String yaml, CountDownLatch stop) throws Exception {
        String broker = found("(tcp://127\\.0\\.0\\.1:\\d+)", yaml);
        int port = Integer.parseInt(found("tcp: \\{host: 127\\.0\\.0\\.1, port: (\\d+)}", yaml));
        MqttClient client = new MqttClient(broker, "stand-in", new MemoryPersistence());
        client.connect();
        do {
            int[] registers = phaseAndRate(port);
            for (String controller : List.of("boiler-1", "boiler-2", "steam-1")) {
                String phase = (registers[0] & 0xF) == 0 ? "standby" : "in motion";
                publish(client, controller, "phase", "{\"number\": 0, \"text\": \"" + phase + "\"}", "");
                publish(client, controller, "firing-rate", String.valueOf(registers[1] / 100.0), "%");
            }
        } while (!stop.await(200, TimeUnit.MILLISECONDS));
        client.disconnect();
    }

    private static void publish(MqttClient client, String controller, String point, String value, String unit)
            throws Exception {
        String payload = String.format(
                Locale.ROOT,
                "{\"value\": %s, \"unit\": \"%s\", \"quality\": \"good\", \"readAt\": \"%s\"}",
                value,
                unit,
                Instant.now());
        client.publish(
                "plant/quillmere/" + controller + "/" + point, payload.getBytes(StandardCharsets.UTF_8), 1, true);
    }

    /** Registers 1 and 16 of unit 3, each by a request of its own. */
    private static int[] phaseAndRate(int port) throws Exception {
        return new int[] {read(port, "000100000006030300010001"), read(port, "000100000006030300100001")};
    }

    private static int read(int port, String request) throws Exception {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
            socket.getOutputStream().write(HexFormat.of().parseHex(request));
            DataInputStream in = new DataInputStream(socket.getInputStream());
            in.readFully(new byte[9]);
            return in.readUnsignedShort();
        }
    }

    private static String found(String pattern, String text) {
        Matcher matcher = Pattern.compile(pattern).matcher(text);
        if (!matcher.find()) {
            throw new IllegalStateException(pattern + " is not in the site");
        }
        return matcher.group(1);
    }
}
