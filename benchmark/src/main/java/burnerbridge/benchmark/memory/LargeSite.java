package burnerbridge.benchmark.memory;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * A site folder with a controller on each of many lines, all points on MQTT, and of each controller as many on BACnet as make
 * up what a device holds.
 *
 * @param points of each controller
 * @param every in seconds, of all points
 */
record LargeSite(List<Integer> ports, int points, int every, int broker, int bacnet) {
    private static final int MOST_OBJECTS = 10_000;
    /** Between the instances of two controllers. */
    private static final int INSTANCES = 1000;

    int topics() {
        return ports.size() * points;
    }

    /** Points of a controller that are on BACnet; each controller has two more objects there. */
    private int bound() {
        return Math.min(points, Math.max(0, MOST_OBJECTS / ports.size() - 2));
    }

    int objects() {
        return ports.size() * (bound() + 2);
    }

    void write(Path folder) throws IOException {
        Files.createDirectories(folder.resolve("points"));
        Files.writeString(folder.resolve("points/large.csv"), list());
        Files.writeString(folder.resolve("bindings.csv"), bindings());
        Files.writeString(folder.resolve("site.yaml"), site());
    }

    private String list() {
        return lines(
                points,
                "name,table,address,format,scale,unit,role,every,object\n",
                i -> "point-" + i + ",holding-register," + i + ",uint16,0.1,°C,measurement," + every + " s,"
                        + (i < bound() ? "analog-input" : "none") + "\n");
    }

    private String bindings() {
        return lines(
                bound(),
                "type,point,object,offset,states,at,was,gone\n",
                i -> "large,point-" + i + ",analog-input," + (i + 1) + ",,holding-register wire " + i + " uint16,,\n");
    }

    private String site() {
        String head = "site: large\ntime-zone: Europe/Lisbon\n"
                + "bacnet: {device-instance: 3, bind: 127.0.0.1, port: " + bacnet + "}\n"
                + "mqtt: {brokers: ['tcp://127.0.0.1:" + broker + "'], root: plant}\n"
                + "types:\n  large: {points: points/large.csv, numbering: wire}\n";
        return head
                + lines(
                        ports.size(),
                        "lines:\n",
                        i -> "  l" + i + ": {tcp: {host: 127.0.0.1, port: " + ports.get(i) + "}}\n")
                + lines(
                        ports.size(),
                        "controllers:\n",
                        i -> "  c" + i + ": {line: l" + i + ", unit: 1, type: large, instance-base: " + INSTANCES * i
                                + "}\n");
    }

    private interface Line {
        String of(int number);
    }

    private static String lines(int count, String head, Line line) {
        return IntStream.range(0, count).mapToObj(line::of).collect(Collectors.joining("", head, ""));
    }
}
