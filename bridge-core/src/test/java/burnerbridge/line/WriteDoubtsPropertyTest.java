package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.frame.Pdu;
import burnerbridge.line.frame.WriteRequest;
import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.model.Seed;
import burnerbridge.model.Stamp;
import burnerbridge.site.AddressRange;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Among reads, with replies as late as they may be: the reply to one write is never taken for that to another, though
 * they look alike to the last byte.
 */
class WriteDoubtsPropertyTest {
    private static final Duration REPLY_TIMEOUT = Duration.ofMillis(100);
    private static final Duration MEMORY = REPLY_TIMEOUT.multipliedBy(6);
    private static final int STEPS = 20_000;

    private final HandClock clock = new HandClock();
    private final Doubts doubts = new Doubts(MEMORY);
    private int answered;
    private int unanswered;
    private int waited;

    private static WriteRequest write(Random dice) {
        WriteTemplate template = new WriteTemplate(
                new UnitId(1 + dice.nextInt(2)),
                16,
                AddressRange.of(RegisterTable.HOLDING_REGISTER, 10 * dice.nextInt(2), 1),
                0,
                new WriteTerms(dice.nextInt(8) == 0, Duration.ZERO));
        return new WriteRequest(template, Pdu.encode(template, Registers.of(dice.nextInt(0x10000))));
    }

    private static ReadRequest read(Random dice) {
        return new ReadRequest(
                new UnitId(1 + dice.nextInt(2)), RegisterTable.HOLDING_REGISTER, 10 * dice.nextInt(3), 2);
    }

    private void awaitTurn(Request request) {
        Duration left = Duration.ofNanos(doubts.clearAt(request, clock.ticks()) - clock.ticks());
        waited += request instanceof WriteRequest && !left.isZero() ? 1 : 0;
        clock.forward(left);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 5, 300})
    void theReplyToAWriteIsNeverTakenForThatToAnother(int wireMillis) {
        Random dice = new Random(Seed.value());
        LateUnits units = new LateUnits(dice, clock, MEMORY);
        Duration wireTime = Duration.ofMillis(wireMillis);
        for (int i = 0; i < STEPS; i++) {
            clock.forward(Duration.ofMillis(dice.nextInt(5) == 0 ? dice.nextInt(300) : 2));
            Request request = dice.nextInt(3) == 0 ? write(dice) : read(dice);
            String what = "seed " + Seed.value() + ", step " + i + ": " + request;
            doubts.begin();
            Optional<Outcome> outcome = Optional.empty();
            while (outcome.isEmpty()) {
                awaitTurn(request);
                Stamp left = clock.now();
                doubts.asked(request, left, wireTime);
                outcome = doubts.believed(request, units.ask(request, wireTime, REPLY_TIMEOUT));
                if (request instanceof WriteRequest) {
                    assertThat(outcome).as(what).isPresent();
                }
            }
            if (request instanceof WriteRequest) {
                check(what, outcome.get(), units);
            } else if (outcome.get() instanceof Outcome.Answered reading) {
                assertThat(reading.data().word(1)).as(what).isEqualTo(((ReadRequest) request).first());
            }
        }
        System.out.println("Writes with doubts, " + wireMillis + " ms on the wire: " + answered + " answered, "
                + unanswered + " not, " + waited + " waits");
        assertThat(answered).isGreaterThan(STEPS / 20);
        assertThat(unanswered).isGreaterThan(STEPS / 50);
        assertThat(waited).isPositive();
    }

    private void check(String what, Outcome outcome, LateUnits units) {
        if (outcome.isReply()) {
            answered++;
            assertThat(units.lastAnswered()).as(what).isEqualTo(units.asked());
        } else {
            unanswered++;
        }
    }
}
