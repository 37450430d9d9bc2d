package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.GuidePage.Block;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The guide {@code docs/first-site.md}, followed to the letter on a device that others wrote: every wrong list shows
 * what the guide says of it, and the last one what the controller's display does.
 */
class FirstSiteIT {
    /** A row of {@code values}: the value and, where the point has one, its unit. */
    private static final Pattern GOOD_ROW =
            Pattern.compile("boiler-1 +\\S+ +[0-9A-F]{4}(?: [0-9A-F]{4})? +(\\S+)(?:  (\\S+))? +good");

    private final int port = FreePorts.tcp();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @BeforeEach
    void require() {
        Rig.requireDevice();
    }

    @Test
    void whoFollowsTheGuideSeesWhatItSaysAndInTheEndWhatTheDisplayShows() throws Exception {
        GuidePage page = new GuidePage("first-site.md");
        List<String> values = List.of();
        int looks = 0;
        try (GuideReader reader = new GuideReader(folder, port)) {
            for (Block block : page.blocks()) {
                reader.follow(block);
                if (block.first().startsWith("./burner-bridge values ")) {
                    values = reader.seen();
                    looks++;
                }
            }
        }
        assertThat(looks).isGreaterThan(5);
        assertThat(shown(values)).isEqualTo(page.display());
    }

    private static List<String> shown(List<String> values) {
        return values.stream()
                .map(GOOD_ROW::matcher)
                .filter(Matcher::matches)
                .map(row -> row.group(2) == null ? row.group(1) : row.group(1) + " " + row.group(2))
                .toList();
    }
}
