package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import burnerbridge.model.Seed;
import burnerbridge.site.QuillmereWithPermits;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Thousands of random damages: whatever a site folder holds, it is a site or the problems of one, each with
 * a place, and soon. A seed given as {@code -Dseed=…} is run again.
 */
class MutatedSitesTest {
    private static final int DAMAGES = Integer.getInteger("damages", 2000);
    /** Of the example site, which is large, as many less as it takes longer to load. */
    private static final int FEWER = 10;
    /** What hangs takes longer, however busy the machine is. */
    private static final long MOST_MILLIS = 60_000;

    /** A thousand of each of its files, and the one that says that there are more. */
    private static final int MOST_PROBLEMS_OF_A_FILE = 1001;

    /** What is true of a file as a whole and stands in no line of it. */
    private static final Pattern WHOLE_FILE =
            Pattern.compile("must hold .*|has more than .*|is missing in .*|is larger than .*"
                    + "|is neither UTF-8 .*|is not UTF-8.*|is a workbook .*|cannot be read.*|\\d+ (points?|objects? of write permits) (has|have) no binding .*"
                    + "|lines\\..*\\.reply-timeout: .*|is not YAML: .*Number of aliases.*");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private int sound;
    private int told;
    private long slowest;
    private int most;

    @Test
    void noDamageOfTheExampleSiteEscapesTheChecker() throws IOException {
        run(Path.of("examples", "quillmere"), DAMAGES / FEWER);
    }

    @Test
    void noDamageOfASiteWithEveryFeatureEscapesTheChecker() throws IOException {
        run(DamagedSites.resource("every-feature"), DAMAGES);
    }

    @Test
    void noDamageOfTheExampleSiteWithPermitsEscapesTheChecker(@TempDir Path other) throws IOException {
        Path site = other.resolve("permitted");
        QuillmereWithPermits.writeTo(site);
        run(site, DAMAGES / FEWER);
    }

    @Test
    void aFileOfManyMistakesTellsAThousandOfThem() throws IOException {
        DamagedSites.writeTo(folder);
        Files.writeString(
                folder.resolve("points/hot-water.csv"), "name,table,address,format,role\n" + "A\n".repeat(5000));
        List<Problem> problems = SiteFolder.load(folder).problems().stream()
                .filter(problem -> problem.file().equals("points/hot-water.csv"))
                .toList();
        assertThat(problems).hasSize(1001);
        assertThat(problems.get(0).toString())
                .isEqualTo("points/hot-water.csv: has more than 1000 problems, and the others are not told");
    }

    @Test
    void aFileThatIsTooLargeIsNotRead() throws IOException {
        DamagedSites.writeTo(folder);
        Files.writeString(folder.resolve("site.yaml"), "#".repeat((2 << 20) + 1));
        assertThat(SiteFolder.load(folder).problems())
                .singleElement()
                .asString()
                .isEqualTo("site.yaml: is larger than 2 MiB, which no site needs");
    }

    private void run(Path site, int damages) throws IOException {
        long seed = Seed.value();
        Random random = new Random(seed);
        Mutator mutator = new Mutator(random);
        Map<String, byte[]> files = files(site);
        for (int i = 0; i < damages; i++) {
            Map<String, byte[]> damaged = new HashMap<>(files);
            List<String> names = files.keySet().stream().sorted().toList();
            for (int j = 0; j <= random.nextInt(3); j++) {
                String name = names.get(random.nextInt(names.size()));
                damaged.compute(name, (file, bytes) -> mutator.damage(bytes == null ? new byte[0] : bytes, file));
            }
            write(damaged);
            judge(seed + " damage " + i, files.size());
        }
        System.out.println("seed " + seed + ": " + damages + " damages of " + site.getFileName() + ", " + sound
                + " still sound, " + told + " problems told, the slowest load " + slowest
                + " ms, the most problems of one load " + most);
        assertThat(told).isGreaterThan(damages);
    }

    private static Map<String, byte[]> files(Path site) throws IOException {
        Map<String, byte[]> files = new HashMap<>();
        try (Stream<Path> all = Files.walk(site)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                files.put(site.relativize(file).toString(), Files.readAllBytes(file));
            }
        }
        return files;
    }

    private void write(Map<String, byte[]> files) throws IOException {
        for (Map.Entry<String, byte[]> file : files.entrySet()) {
            Path path = folder.resolve(file.getKey());
            Files.createDirectories(path.getParent());
            Files.write(path, file.getValue());
        }
    }

    private void judge(String which, int files) {
        long nanos = System.nanoTime();
        SiteFolder loaded;
        try {
            loaded = SiteFolder.load(folder);
        } catch (Exception | StackOverflowError | OutOfMemoryError e) {
            throw new AssertionError("seed " + which + " got out of the checker", e);
        }
        long millis = (System.nanoTime() - nanos) / 1_000_000;
        slowest = Math.max(slowest, millis);
        most = Math.max(most, loaded.problems().size());
        assertThat(millis).as("milliseconds of seed %s", which).isLessThan(MOST_MILLIS);
        assertThat(loaded.problems())
                .as("problems of seed %s", which)
                .hasSizeLessThanOrEqualTo(files * MOST_PROBLEMS_OF_A_FILE);
        boolean errors = loaded.problems().stream().anyMatch(Problem::isError);
        assertThat(loaded.site().isPresent()).as("a site of seed %s", which).isNotEqualTo(errors);
        sound += errors ? 0 : 1;
        told += loaded.problems().size();
        assertThat(objections(loaded.problems())).as("seed %s", which).isEmpty();
    }

    private static List<String> objections(List<Problem> problems) {
        List<String> objections = new ArrayList<>();
        for (Problem problem : problems) {
            boolean placed =
                    problem.line() > 0 || WHOLE_FILE.matcher(problem.message()).matches();
            if (!placed || problem.file().isBlank()) {
                objections.add("no place: " + problem);
            }
            if (problem.message().isBlank()
                    || problem.message().contains("Exception")
                    || problem.message().chars().anyMatch(Character::isISOControl)) {
                objections.add("no sentence: " + problem);
            }
        }
        return objections;
    }
}
