package burnerbridge.benchmark.all;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.benchmark.measure.Figure;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

class ResultTest {
    private static final Measurement WELL = Measurement.of("lines", true, "", "", "");
    private static final Measurement FAILED = Measurement.of("pace", false, "", "", "");
    private static final Outcome GOOD = new Outcome(
            WELL,
            List.of("--rounds", "1", "--java", "/somewhere/bin/java", "--seconds", "5", "--java", "b"),
            "0.31",
            0.042,
            Duration.ofMillis(61_900),
            "",
            List.of(Figure.once("memory", "MiB", 400).in("lines")));
    private static final Outcome BAD =
            new Outcome(FAILED, List.of(), "1.20", 1, Duration.ofSeconds(1), "ended with exit code 1", List.of());

    private static List<String> lines(Length length) {
        return lines(length, List.of(GOOD, BAD));
    }

    private static List<String> lines(Length length, List<Outcome> outcomes) {
        return new Result(
                        "benchmark/run all",
                        length,
                        Instant.parse("2026-11-28T22:05:59Z"),
                        "a machine",
                        "a Java",
                        outcomes)
                .lines();
    }

    @Test
    void aPageSaysWhatRanWhereAndHow() {
        assertThat(lines(Length.LONG))
                .containsSubsequence(
                        "`benchmark/run all`, begun 2026-11-28 22:05 UTC on a machine; a Java.",
                        "| lines | memory, MiB | 400.0 | once |  |  |  |",
                        "| lines | `--rounds 1 --seconds 5` | 0.31 | 4 | 61 | well |",
                        "| pace |  | 1.20 | 100 | 1 | **ended with exit code 1** |")
                .noneMatch(line -> line.contains("short run") || line.contains("bin/java"));
    }

    @Test
    void whatWasShortIsCalledShort() {
        assertThat(lines(Length.SHORT)).anyMatch(line -> line.startsWith("**A short run**"));
        assertThat(lines(Length.MOMENT)).anyMatch(line -> line.contains("its numbers mean nothing"));
    }

    @Test
    void aMachineThatWasBusyIsCalledBusy() {
        assertThat(lines(Length.LONG)).anyMatch(line -> line.startsWith("**The machine was busy**"));
        assertThat(lines(Length.LONG, List.of(GOOD))).noneMatch(line -> line.contains("busy**"));
    }
}
