package burnerbridge.benchmark.pace;

import burnerbridge.config.SiteFolder;
import burnerbridge.site.Site;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * Two controllers on one serial line: one whose list is dense, one of whose registers the list names one in
 * nine. All are wanted more often than the line can, so that it is never idle and one scan follows the other.
 */
final class PacedSite {
    private static final String HEADER = "name,table,address,format,role,every,stale-after,object\n";
    private static final int DENSE = 60;
    private static final int SCATTERED = 12;
    private static final int STEP = 9;

    private PacedSite() {}

    static Site write(Path folder, Wire wire, String port) throws IOException {
        Files.createDirectories(folder.resolve("points"));
        Files.writeString(folder.resolve("points/dense.csv"), list(DENSE, 1));
        Files.writeString(folder.resolve("points/scattered.csv"), list(SCATTERED, STEP));
        Files.writeString(folder.resolve("site.yaml"), site(wire, port));
        SiteFolder loaded = SiteFolder.load(folder);
        return loaded.site().orElseThrow(() -> new IllegalStateException("the site is wrong: " + loaded.problems()));
    }

    private static String list(int count, int step) {
        return IntStream.range(0, count)
                .mapToObj(i -> "point-" + i + ",holding-register," + i * step + ",uint16,measurement,100 ms,1 h,none\n")
                .collect(Collectors.joining("", HEADER, ""));
    }

    private static String site(Wire wire, String port) {
        return String.format(Locale.ROOT, """
                site: paced
                time-zone: Europe/Lisbon
                lines:
                  paced: {serial: {port: %s, baud: %d, parity: none, stop-bits: %d}, reply-timeout: 2 s}
                types:
                  dense: {points: points/dense.csv, numbering: wire}
                  scattered: {points: points/scattered.csv, numbering: wire}
                controllers:
                  one: {line: paced, unit: 1, type: dense}
                  two: {line: paced, unit: 2, type: scattered}
                """, port, wire.baud(), Wire.STOP_BITS);
    }
}
