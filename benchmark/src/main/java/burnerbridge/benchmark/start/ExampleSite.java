package burnerbridge.benchmark.start;

import burnerbridge.config.SiteFolder;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.Site;
import java.io.IOException;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * A copy of the example site with the ports of a plant and a broker in it.
 *
 * @param bacnet the UDP port of its device
 * @param inputs Analog Inputs of each controller, as many of each
 * @param topics filters that match the points of controllers and nothing else
 */
public record ExampleSite(Path folder, int bacnet, List<Integer> inputs, List<String> topics) {
    private static final int INPUTS_OF_A_CONTROLLER = 8;
    private static final String SITE_FILE = "site.yaml";
    private static final Pattern PORT = Pattern.compile("(?m)(?<=^[^#\\n]{0,60}(?:port: |127\\.0\\.0\\.1:))\\d+");

    public static ExampleSite copy(Path original, Path folder, PlantProcess plant, int broker) throws IOException {
        copyFiles(original, folder);
        int bacnet = freeUdpPort();
        Path file = folder.resolve(SITE_FILE);
        Map<String, Integer> ports =
                Map.of("7001", plant.boilerHouse(), "1502", plant.annex(), "1883", broker, "47808", bacnet);
        Files.writeString(file, withPorts(Files.readString(file), ports));
        SiteFolder loaded = SiteFolder.load(folder);
        Site site = loaded.site().orElseThrow(() -> new IllegalStateException("wrong: " + loaded.problems()));
        return new ExampleSite(folder, bacnet, inputs(site), topics(site));
    }

    private static void copyFiles(Path original, Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(original)) {
            for (Path each : all.toList()) {
                Files.copy(each, folder.resolve(original.relativize(each).toString()));
            }
        }
    }

    /** All at once, since a new port may be another's old one. */
    private static String withPorts(String yaml, Map<String, Integer> ports) {
        List<String> replaced = new ArrayList<>();
        String other = PORT.matcher(yaml).replaceAll(port -> {
            replaced.add(port.group());
            return String.valueOf(ports.getOrDefault(port.group(), Integer.valueOf(port.group())));
        });
        if (replaced.size() != ports.size() || !replaced.containsAll(ports.keySet())) {
            throw new IllegalArgumentException(
                    SITE_FILE + ": must have the ports " + ports.keySet() + ", once each (has " + replaced + ")");
        }
        return other;
    }

    private static List<Integer> inputs(Site site) {
        return site.controllers().stream()
                .flatMapToInt(controller -> site.points().stream()
                        .filter(point -> point.controller().equals(controller))
                        .filter(point -> point.definition().object() == ObjectKind.ANALOG_INPUT)
                        .map(point -> site.bindings().instanceOf(point))
                        .flatMapToInt(OptionalInt::stream)
                        .limit(INPUTS_OF_A_CONTROLLER))
                .boxed()
                .toList();
    }

    private static List<String> topics(Site site) {
        String root = site.mqtt().orElseThrow().root() + "/" + site.name().text() + "/";
        return site.controllers().stream()
                .map(controller -> root + controller.name().text() + "/+")
                .toList();
    }

    public static int freeUdpPort() throws IOException {
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }
}
