package burnerbridge.benchmark.lines;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** Writes a site folder with as many lines as there are ports, and neither BACnet nor MQTT. */
public final class GeneratedSite {
    private static final String HEADER = "name,table,address,format,scale,role,every,read-group,object\n";

    private GeneratedSite() {}

    /**
     * Writes it.
     *
     * @param ports of this machine's loopback address, one for each line
     */
    public static void write(Path folder, Load load, List<Integer> ports) throws IOException {
        Files.createDirectories(folder.resolve("points"));
        Files.writeString(folder.resolve("points/measured.csv"), pointList(load));
        Files.writeString(folder.resolve("site.yaml"), site(ports));
    }

    private static String pointList(Load load) {
        return IntStream.range(0, load.points())
                .mapToObj(i -> "point-" + i + ",holding-register," + load.address(i)
                        + ",uint16,0.1,measurement,1 s,run-" + i / load.pointsOfARead() + ",none\n")
                .collect(Collectors.joining("", HEADER, ""));
    }

    private static String site(List<Integer> ports) {
        StringBuilder yaml = new StringBuilder("site: measured\ntime-zone: Europe/Lisbon\nlines:\n");
        for (int i = 0; i < ports.size(); i++) {
            yaml.append("  l")
                    .append(i)
                    .append(": {tcp: {host: 127.0.0.1, port: ")
                    .append(ports.get(i))
                    .append("}}\n");
        }
        yaml.append("types:\n  measured: {points: points/measured.csv, numbering: wire}\ncontrollers:\n");
        for (int i = 0; i < ports.size(); i++) {
            yaml.append("  c").append(i).append(": {line: l").append(i).append(", unit: 1, type: measured}\n");
        }
        return yaml.toString();
    }
}
