package burnerbridge.benchmark.start;

import burnerbridge.config.SiteFolder;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.Site;
import java.io.IOException;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalInt;
import java.util.stream.Stream;

/**
 * A copy of the example site with the ports of a plant and a broker in it.
 *
 * @param bacnet the UDP port of its device
 * @param inputs Analog Inputs of each controller, as many of each
 * @param topics filters that match the points of controllers and nothing else
 */
record ExampleSite(Path folder, int bacnet, int[] inputs, String[] topics) {
    private static final int INPUTS_OF_A_CONTROLLER = 8;
    private static final String SITE_FILE = "site.yaml";

    static ExampleSite copy(Path original, Path folder, PlantProcess plant, int broker) throws IOException {
        copyFiles(original, folder);
        int bacnet = freeUdpPort();
        Path file = folder.resolve(SITE_FILE);
        String yaml = Files.readString(file);
        yaml = replaced(yaml, "port: 7001", "port: " + plant.boilerHouse());
        yaml = replaced(yaml, "port: 1502", "port: " + plant.annex());
        yaml = replaced(yaml, "127.0.0.1:1883", "127.0.0.1:" + broker);
        yaml = replaced(yaml, "port: 47808", "port: " + bacnet);
        Files.writeString(file, yaml);
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

    private static String replaced(String yaml, String what, String by) {
        if (!yaml.contains(what)) {
            throw new IllegalArgumentException(SITE_FILE + ": must have '" + what + "' to be replaced");
        }
        return yaml.replace(what, by);
    }

    private static int[] inputs(Site site) {
        return site.controllers().stream()
                .flatMapToInt(controller -> site.points().stream()
                        .filter(point -> point.controller().equals(controller))
                        .filter(point -> point.definition().object() == ObjectKind.ANALOG_INPUT)
                        .map(point -> site.bindings().instanceOf(point))
                        .flatMapToInt(OptionalInt::stream)
                        .limit(INPUTS_OF_A_CONTROLLER))
                .toArray();
    }

    private static String[] topics(Site site) {
        String root = site.mqtt().orElseThrow().root() + "/" + site.name().text() + "/";
        return site.controllers().stream()
                .map(controller -> root + controller.name().text() + "/+")
                .toArray(String[]::new);
    }

    private static int freeUdpPort() throws IOException {
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }
}
