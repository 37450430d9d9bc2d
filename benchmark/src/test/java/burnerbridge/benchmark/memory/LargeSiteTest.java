package burnerbridge.benchmark.memory;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteFolder;
import burnerbridge.site.Site;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LargeSiteTest {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private Site site(int controllers, int points) throws IOException {
        List<Integer> ports =
                IntStream.range(0, controllers).mapToObj(i -> 20_000 + i).toList();
        LargeSite large = new LargeSite(ports, points, 10, 1883, 47_808);
        large.write(folder);
        SiteFolder loaded = SiteFolder.load(folder);
        assertThat(loaded.problems()).noneMatch(problem -> problem.isError());
        Site site = loaded.site().orElseThrow();
        assertThat(site.points()).hasSize(large.topics());
        assertThat(bound(site) + 2 * controllers).isEqualTo(large.objects());
        return site;
    }

    private static long bound(Site site) {
        return site.points().stream()
                .filter(point -> site.bindings().instanceOf(point).isPresent())
                .count();
    }

    @Test
    void allPointsOfASmallOneAreOnBacnet() throws IOException {
        assertThat(bound(site(3, 5))).isEqualTo(15);
    }

    @Test
    void ofALargeOneAsManyAsADeviceHolds() throws IOException {
        assertThat(bound(site(100, 110))).isEqualTo(9_800);
    }
}
