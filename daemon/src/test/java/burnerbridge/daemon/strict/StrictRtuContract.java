package burnerbridge.daemon.strict;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.device.Door;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** RTU frames besides on a wire so slow that replies are on it for much longer than the reply time-out. */
abstract class StrictRtuContract extends StrictnessContract {
    private static final int SLOW_BAUD = 9600;
    /** More than of the fast ones, since they mostly wait. */
    private static final int SLOW_LANES = 20;

    private static final Duration SHORT_TIMEOUT = Duration.ofMillis(30);
    private static final int QUESTIONS = Integer.getInteger("burnerbridge.strict.slow-questions", 20);
    private static final double LEAST_ANSWERED = 0.3;

    @Test
    void noReplyThatIsLongOnItsWireIsEverGoodForAnotherQuestion() throws Exception {
        Tally tally = new Tally();
        List<String> trouble = inLanes(SLOW_LANES, lane -> runSlowly(lane, tally));
        System.out.println(transport() + " at " + SLOW_BAUD + " baud, seeds from " + SEED + ": " + tally);

        assertNothingWrong(tally);
        assertThat(trouble).isEmpty();
        assertThat(tally.shareAnswered()).isGreaterThan(LEAST_ANSWERED);
    }

    private Optional<String> runSlowly(int lane, Tally tally) throws IOException {
        Door door = newDoor(lane, SLOW_BAUD);
        try (Lane one = Lane.slow(SEED + lane, door, echoes(door), SHORT_TIMEOUT, tally);
                Master master = ours(one.device(), door, SHORT_TIMEOUT)) {
            one.ask(master, QUESTIONS, () -> false);
            return Optional.empty();
        }
    }
}
