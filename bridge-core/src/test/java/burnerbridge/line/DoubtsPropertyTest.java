package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Stamp;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** However late replies come within the memory, nothing wrong is believed, nothing looks newer than it is. */
class DoubtsPropertyTest {
    private static final Duration REPLY_TIMEOUT = Duration.ofMillis(100);
    private static final Duration MEMORY = REPLY_TIMEOUT.multipliedBy(6);
    private static final int QUESTIONS = 20_000;
    /** As many as can be open at once, of which each costs one more, and the last. */
    private static final int MOST_ASKED = 16;

    private int believed;
    private int behind;
    private int waited;

    /** Few shapes at few addresses, so that much is alike. */
    private static ReadRequest random(Random dice) {
        RegisterTable table = dice.nextInt(4) == 0 ? RegisterTable.INPUT_REGISTER : RegisterTable.HOLDING_REGISTER;
        boolean once = dice.nextInt(40) == 0;
        return new ReadRequest(
                new UnitId(1 + dice.nextInt(2)),
                table,
                10 * dice.nextInt(3),
                2 + dice.nextInt(2),
                new ReadTerms(false, once, Duration.ZERO));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 5, 300})
    void nothingWrongIsEverBelieved(int wireMillis) {
        for (long seed = 20261125; seed < 20261130; seed++) {
            run(seed, Duration.ofMillis(wireMillis));
        }
        System.out.println("Doubts, " + wireMillis + " ms on the wire: " + 5 * QUESTIONS + " questions, " + believed
                + " replies believed, " + behind + " of those perhaps to an earlier request, " + waited + " waits");
        assertThat(believed).isGreaterThan(QUESTIONS);
        assertThat(behind).isPositive();
        assertThat(waited).isPositive();
    }

    private void run(long seed, Duration wireTime) {
        Random dice = new Random(seed);
        HandClock clock = new HandClock();
        Doubts doubts = new Doubts(MEMORY);
        LateUnits units = new LateUnits(dice, clock, MEMORY);
        ReadRequest request = random(dice);
        for (int i = 0; i < QUESTIONS; i++) {
            request = dice.nextInt(3) == 0 ? request : random(dice);
            clock.forward(Duration.ofMillis(dice.nextInt(5) == 0 ? dice.nextInt(300) : 2));
            awaitTurn(doubts, request, clock, wireTime);
            ask(doubts, request, units, clock, wireTime, "seed " + seed + ", question " + i + ": " + request);
        }
    }

    private void awaitTurn(Doubts doubts, ReadRequest request, HandClock clock, Duration wireTime) {
        Duration left = Duration.ofNanos(doubts.clearAt(request, clock.ticks()) - clock.ticks());
        waited += left.isZero() ? 0 : 1;
        // The queue of replies on the wire can be no longer than what was asked within the memory.
        assertThat(left).isLessThanOrEqualTo(MEMORY.plus(wireTime.multipliedBy(MOST_ASKED)));
        clock.forward(left);
    }

    private void ask(
            Doubts doubts, ReadRequest request, LateUnits units, HandClock clock, Duration wireTime, String what) {
        doubts.begin();
        Optional<Outcome> outcome = Optional.empty();
        Stamp last = clock.now();
        for (int asked = 0; outcome.isEmpty(); asked++) {
            assertThat(asked).as(what).isLessThan(MOST_ASKED);
            awaitTurn(doubts, request, clock, wireTime);
            last = clock.now();
            doubts.asked(request, last, wireTime);
            outcome = doubts.believed(request, units.ask(request, wireTime, REPLY_TIMEOUT));
        }
        if (outcome.get() instanceof Outcome.Answered answered) {
            believed++;
            behind += answered.askedAt().equals(last) ? 0 : 1;
            assertThat(answered.data().word(1)).as(what).isEqualTo(request.first());
            assertThat(units.lastReadAt()).as(what).isGreaterThanOrEqualTo(units.sinceStart(answered.askedAt()));
        }
    }
}
