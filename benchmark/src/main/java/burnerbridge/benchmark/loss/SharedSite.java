package burnerbridge.benchmark.loss;

import burnerbridge.benchmark.pace.Wire;
import burnerbridge.config.SiteFolder;
import burnerbridge.site.Site;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** Several controllers on one serial line, each with a few registers that are wanted every second. */
final class SharedSite {
    private static final String HEADER = "name,table,address,format,role,every,object\n";
    private static final int POINTS = 20;

    private SharedSite() {}

    static Site write(Path folder, Wire wire, String port, int controllers) throws IOException {
        Files.createDirectories(folder.resolve("points"));
        Files.writeString(folder.resolve("points/shared.csv"), list());
        Files.writeString(folder.resolve("site.yaml"), site(wire, port, controllers));
        SiteFolder loaded = SiteFolder.load(folder);
        return loaded.site().orElseThrow(() -> new IllegalStateException("the site is wrong: " + loaded.problems()));
    }

    private static String list() {
        return IntStream.range(0, POINTS)
                .mapToObj(i -> "point-" + i + ",holding-register," + i + ",uint16,measurement,1 s,none\n")
                .collect(Collectors.joining("", HEADER, ""));
    }

    private static String site(Wire wire, String port, int controllers) {
        String head = String.format(Locale.ROOT, """
                site: shared
                time-zone: Europe/Lisbon
                lines:
                  shared: {serial: {port: %s, baud: %d, parity: none, stop-bits: %d}}
                types:
                  shared: {points: points/shared.csv, numbering: wire}
                controllers:
                """, port, wire.baud(), Wire.STOP_BITS);
        return IntStream.rangeClosed(1, controllers)
                .mapToObj(unit -> "  c" + unit + ": {line: shared, unit: " + unit + ", type: shared}\n")
                .collect(Collectors.joining("", head, ""));
    }
}
