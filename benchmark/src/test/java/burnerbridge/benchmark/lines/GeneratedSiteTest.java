package burnerbridge.benchmark.lines;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteFolder;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.Site;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GeneratedSiteTest {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 10})
    void asksForAsManyReadsAsTheLoadSays(int reads) throws IOException {
        Load load = new Load(3, 10, reads);
        Site site = written(load, List.of(5001, 5002, 5003));
        List<ReadBlock> blocks = LinePlan.all(site.lines(), site.points()).stream()
                .flatMap(plan -> plan.blocks().stream())
                .toList();
        assertThat(blocks).hasSize(load.readsASecond());
        assertThat(blocks).allSatisfy(block -> assertThat(block.every()).isEqualTo(Load.EVERY));
    }

    @Test
    void hasNoSideThatWouldCostSomethingToo() throws IOException {
        Site site = written(new Load(1, 1, 1), List.of(5001));
        assertThat(site.bacnet()).isEmpty();
        assertThat(site.mqtt()).isEmpty();
    }

    private Site written(Load load, List<Integer> ports) throws IOException {
        GeneratedSite.write(folder, load, ports);
        SiteFolder loaded = SiteFolder.load(folder);
        assertThat(loaded.site()).as(loaded.problems().toString()).isPresent();
        return loaded.site().orElseThrow();
    }
}
