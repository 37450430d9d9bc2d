package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.DamagedSites.Damage;
import burnerbridge.config.problem.Problem;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The table of damaged sites, {@code damaged-sites.txt}: each with the file, line, column and sentence told. */
class DamagedSitesTest {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @BeforeEach
    void write() {
        DamagedSites.writeTo(folder);
    }

    static Stream<Damage> table() throws IOException {
        return DamagedSites.table();
    }

    private List<Problem> errors() {
        return SiteFolder.load(folder).problems().stream()
                .filter(Problem::isError)
                .toList();
    }

    @Test
    void theSiteThatIsDamagedIsSound() {
        assertThat(errors()).isEmpty();
        assertThat(SiteFolder.load(folder).site().orElseThrow().points()).hasSize(2 * 18 + 19 + 1);
    }

    @Test
    void theTableIsLong() throws IOException {
        assertThat(DamagedSites.table().distinct().count()).isGreaterThanOrEqualTo(300);
    }

    @ParameterizedTest
    @MethodSource("table")
    void aDamageIsToldWithItsPlaceAndNothingStarts(Damage damage) {
        DamagedSites.damage(folder, damage);
        assertThat(errors())
                .extracting(Problem::toString)
                .anySatisfy(told -> assertThat(told).startsWith(damage.expected()));
        assertThat(errors()).allSatisfy(problem -> assertThat(problem.file()).isNotBlank());
        assertThat(SiteFolder.load(folder).site()).isEmpty();
    }
}
