package burnerbridge.daemon;

import java.io.DataInputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;

/**
 * Stands in for the bridge in tests of the demo: reads two registers from the site's line, publishes two
 * points at the site's broker, ends on SIGTERM. A file {@code dies} in the site folder makes it end early.
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
        int port = Integer.parseInt(found("host: 127\\.0\\.0\\.1, port: (\\d+)", yaml));
        MqttClient client = new MqttClient(broker, "stand-in", new MemoryPersistence());
        client.connect();
        do {
            int[] registers = phaseAndTemperature(port);
            String phase = registers[0] == 0 ? "standby" : "no longer standby";
            publish(client, "phase", "{\"number\": " + registers[0] + ", \"text\": \"" + phase + "\"}", "");
            publish(client, "boiler-temperature", String.valueOf(registers[1] / 10.0), "°C");
        } while (!stop.await(200, TimeUnit.MILLISECONDS));
        client.disconnect();
    }

    private static void publish(MqttClient client, String point, String value, String unit) throws Exception {
        String payload = String.format(
                Locale.ROOT,
                "{\"value\": %s, \"unit\": \"%s\", \"quality\": \"good\", \"readAt\": \"%s\"}",
                value,
                unit,
                Instant.now());
        client.publish("plant/quillmere/boiler-1/" + point, payload.getBytes(StandardCharsets.UTF_8), 1, true);
    }

    private static int[] phaseAndTemperature(int port) throws Exception {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
            socket.getOutputStream().write(HexFormat.of().parseHex("000100000006010400000002"));
            DataInputStream in = new DataInputStream(socket.getInputStream());
            in.readFully(new byte[9]);
            return new int[] {in.readUnsignedShort(), in.readShort()};
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
