package burnerbridge.benchmark.transactions;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ContestTest {
    private static final Asked ASKED = new Asked(1, 3, Duration.ZERO);

    private final List<String> seen = new ArrayList<>();
    private final Side one = new FakeSide("one", seen);
    private final Side other = new FakeSide("other", seen);

    @Test
    void sidesTakeTurnsAndLeaveTheServerToEachOther() {
        new Contest(0, 2).between(List.of(one, other), ASKED);
        assertThat(seen)
                .containsExactly(
                        "one reads",
                        "one leaves",
                        "other reads",
                        "other leaves",
                        "one reads",
                        "one leaves",
                        "other reads",
                        "other leaves");
    }

    @Test
    void oneAloneStaysConnected() {
        new Contest(0, 2).between(List.of(one), ASKED);
        assertThat(seen).containsExactly("one reads", "one reads");
    }

    @Test
    void warmRoundsAreNotLookedAt() {
        List<Rounds> rounds = new Contest(2, 1).between(List.of(one, other), ASKED);
        assertThat(rounds)
                .allSatisfy(side -> assertThat(side.rounds())
                        .singleElement()
                        .satisfies(round -> assertThat(round.nanos()).containsExactly(3, 3, 3)));
    }
}
