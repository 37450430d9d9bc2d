package burnerbridge.daemon.log;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.log.LogBudget.Note;
import burnerbridge.daemon.log.LogBudget.Weight;
import burnerbridge.model.HandClock;
import java.time.Duration;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class LogBudgetTest {
    private final HandClock clock = new HandClock();
    private final LogBudget budget = new LogBudget(clock.ticks());

    private boolean takes(Weight weight, String line) {
        return budget.takes(weight, line, clock.ticks());
    }

    private long taken(Weight weight, int lines, String text) {
        return IntStream.range(0, lines).filter(i -> takes(weight, text + i)).count();
    }

    private List<String> notes() {
        return budget.due(clock.ticks()).stream().map(Note::sentence).toList();
    }

    @Test
    void theSameLineWithinAMinuteIsCountedAndToldOnceItIsOver() {
        assertThat(takes(Weight.WARNING, "line annex: is not connected")).isTrue();
        clock.forward(Duration.ofSeconds(20));
        assertThat(takes(Weight.WARNING, "line annex: is not connected")).isFalse();
        assertThat(takes(Weight.WARNING, "line annex: is not connected")).isFalse();
        assertThat(notes()).isEmpty();
        clock.forward(Duration.ofSeconds(40));

        assertThat(budget.due(clock.ticks()))
                .containsExactly(
                        new Note(Weight.WARNING, "line annex: is not connected (2 more times within a minute)"));
        assertThat(notes()).as("told once").isEmpty();
        assertThat(takes(Weight.WARNING, "line annex: is not connected")).isTrue();
    }

    @Test
    void aLineThatCameOnceIsNotToldAgain() {
        takes(Weight.NEWS, "line annex: is connected");
        clock.forward(Duration.ofMinutes(2));

        assertThat(notes()).isEmpty();
    }

    @Test
    void inTheLongRunThereAreSixtyLinesAMinute() {
        taken(Weight.NEWS, 1_000, "start ");
        long written = 0;
        for (int second = 0; second < 600; second++) {
            clock.forward(Duration.ofSeconds(1));
            written += taken(Weight.NEWS, 20, second + " ");
        }

        assertThat(written).isEqualTo(600);
    }

    @Test
    void aStormOfNewsLeavesRoomForWarningsAndOneOfWarningsForErrors() {
        assertThat(taken(Weight.NEWS, 1_000, "news ")).isEqualTo(180);
        assertThat(taken(Weight.WARNING, 1_000, "warning ")).isEqualTo(60);
        assertThat(taken(Weight.ERROR, 1_000, "error ")).isEqualTo(60);
    }

    @Test
    void whatFindsNoRoomIsCountedAndTold() {
        taken(Weight.NEWS, 200, "news ");
        taken(Weight.WARNING, 63, "warning ");
        assertThat(notes()).isEmpty();
        clock.forward(Duration.ofMinutes(1));

        assertThat(notes())
                .contains("log: 23 lines were left out within a minute, 3 of them warnings or errors, since there were"
                        + " too many");
        assertThat(notes()).as("told once").isEmpty();
    }

    @Test
    void whatIsRememberedOfLinesIsBounded() {
        for (int minute = 0; minute < 3; minute++) {
            taken(Weight.NEWS, 100_000, minute + " ");
            clock.forward(Duration.ofMinutes(2));
            assertThat(budget.due(clock.ticks())).hasSizeLessThanOrEqualTo(257);
        }
    }
}
