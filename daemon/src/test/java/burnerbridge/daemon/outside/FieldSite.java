package burnerbridge.daemon.outside;

import burnerbridge.config.SiteFolder;
import burnerbridge.line.Lines;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.RunningClock;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.LinePoller;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;

/** A site folder with one controller, and the whole way from its line to the value table, stepped by a test. */
final class FieldSite implements AutoCloseable {
    private final ValueTable table;
    private final LinePoller poller;

    /**
     * @param line where the controller is, as {@code site.yaml} says it
     * @param settings of its type, but for the point list
     */
    FieldSite(Path folder, String line, String settings, String pointList) throws IOException {
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("points.csv"), pointList);
        String yaml = String.format(Locale.ROOT, """
                site: quillmere
                time-zone: Europe/Lisbon
                lines:
                  tested: {%s, reply-timeout: 1 s}
                types:
                  tested: {points: points.csv, %s}
                controllers:
                  boiler-1: {line: tested, unit: 1, type: tested}
                """, line, settings);
        Files.writeString(folder.resolve("site.yaml"), yaml);
        SiteFolder loaded = SiteFolder.load(folder);
        Site site = loaded.site()
                .orElseThrow(() -> new AssertionError(loaded.problems().toString()));
        BridgeClock clock = new RunningClock();
        LinePlan plan = LinePlan.all(site.lines(), site.points()).get(0);
        table = new ValueTable(site.points(), site.controllers());
        poller = new LinePoller(plan, Lines.transport(plan.line(), clock), table, clock);
    }

    /** Does one step after another until something is so. */
    void stepUntil(Callable<Boolean> isSo) {
        Awaitility.await()
                .pollInSameThread()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(1))
                .atMost(Duration.ofSeconds(40))
                .until(() -> {
                    poller.step();
                    return isSo.call();
                });
    }

    /** Whether something is known of every point. */
    boolean isRead() {
        return readings().values().stream().noneMatch(reading -> reading.reason() == Reason.NOT_READ_YET);
    }

    Map<String, Reading> readings() {
        Map<String, Reading> readings = new TreeMap<>();
        for (SitePoint point : table.points()) {
            readings.put(point.definition().name().text(), table.reading(point));
        }
        return readings;
    }

    ControllerLink link() {
        return table.link(table.controllers().get(0));
    }

    @Override
    public void close() {
        poller.close();
    }
}
