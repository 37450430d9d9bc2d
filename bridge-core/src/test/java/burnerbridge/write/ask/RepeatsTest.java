package burnerbridge.write.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class RepeatsTest {
    private static final Source STATION = new Source.Bacnet(0xC0000207, 47808, 0);
    private static final long MEMORY = Duration.ofSeconds(12).toNanos();
    private static final long START = Long.MAX_VALUE - MEMORY / 2;

    private final Repeats<RequestKey, String> repeats = new Repeats<>(Duration.ofSeconds(12), 3);

    private static RequestKey key(int invokeId) {
        return new RequestKey(STATION, invokeId, new byte[] {1, 2, 3});
    }

    @Test
    void theVerySameRequestHasItsAnswerUntilTheMemoryEnds() {
        repeats.answered(key(7), "written", START);
        assertThat(repeats.answer(key(7), START)).contains("written");
        assertThat(repeats.answer(key(7), START + MEMORY - 1)).contains("written");
        assertThat(repeats.answer(key(7), START + MEMORY)).isEmpty();
    }

    @Test
    void anotherStationNumberOrContentIsAnotherRequest() {
        repeats.answered(key(7), "written", 0);
        assertThat(repeats.answer(key(8), 0)).isEmpty();
        assertThat(repeats.answer(new RequestKey(STATION, 7, new byte[] {1, 2, 4}), 0))
                .isEmpty();
        assertThat(repeats.answer(new RequestKey(new Source.Bacnet(0xC0000208, 47808, 0), 7, new byte[] {1, 2, 3}), 0))
                .isEmpty();
        assertThat(repeats.answer(new RequestKey(new Source.Bacnet(0xC0000207, 47809, 0), 7, new byte[] {1, 2, 3}), 0))
                .isEmpty();
        assertThat(key(7)).isNotEqualTo("7").isEqualTo(key(7)).hasSameHashCodeAs(key(7));
    }

    @Test
    void whatItsBytesBecomeAfterwardsChangesNoKey() {
        byte[] bytes = {1, 2, 3};
        RequestKey key = new RequestKey(STATION, 7, bytes);
        bytes[0] = 9;
        assertThat(key).isEqualTo(key(7));
    }

    @Test
    void ofMoreThanItHoldsTheOldestIsForgottenFirst() {
        for (int invokeId = 1; invokeId <= 4; invokeId++) {
            repeats.answered(key(invokeId), "answer " + invokeId, invokeId);
        }
        assertThat(repeats.answer(key(1), 4)).isEmpty();
        assertThat(repeats.answer(key(2), 4)).contains("answer 2");
        assertThat(repeats.answer(key(4), 4)).contains("answer 4");
    }

    @Test
    void aNewerAnswerToTheSameOutlivesTheOlderOne() {
        repeats.answered(key(7), "first", 0);
        repeats.answered(key(7), "second", 10);
        assertThat(repeats.answer(key(7), MEMORY)).contains("second");
        assertThat(repeats.answer(key(7), MEMORY + 10)).isEmpty();
    }

    /** That of the first is dropped by an answer that comes later, whether anybody asks for it or not. */
    @Test
    void anAnswerMakesRoomForThoseThatEndedBefore() {
        repeats.answered(key(1), "first", 0);
        repeats.answered(key(2), "second", 0);
        repeats.answered(key(3), "third", 0);
        repeats.answered(key(4), "fourth", MEMORY);
        repeats.answered(key(5), "fifth", MEMORY);
        repeats.answered(key(6), "sixth", MEMORY);
        assertThat(repeats.answer(key(4), MEMORY)).contains("fourth");
        assertThat(repeats.answer(key(6), MEMORY)).contains("sixth");
    }
}
