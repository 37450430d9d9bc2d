package burnerbridge.write.slot;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Registers;
import burnerbridge.write.ask.Source;
import burnerbridge.write.encode.Encoded;
import java.math.BigDecimal;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class SlotsTest {
    private final Slots slots = new Slots();

    private static Slot slot(int number, OptionalLong until) {
        return new Slot(
                number,
                new Encoded(Registers.of(number), BigDecimal.valueOf(number)),
                new Source.Mqtt("optimiser"),
                until,
                OptionalLong.empty());
    }

    @Test
    void theLowestNumberWinsWhicheverCameFirst() {
        assertThat(slots.winner()).isEmpty();
        assertThat(slots.isEmpty()).isTrue();
        Slot eight = slot(8, OptionalLong.empty());
        Slot twelve = slot(12, OptionalLong.empty());
        slots.put(twelve);
        assertThat(slots.winner()).contains(twelve);
        slots.put(eight);
        assertThat(slots.winner()).contains(eight);
        assertThat(slots.all()).containsExactly(eight, twelve);
        assertThat(slots.at(12)).contains(twelve);
        assertThat(slots.at(9)).isEmpty();
        assertThat(slots.isEmpty()).isFalse();
    }

    @Test
    void whatIsGivenUpIsGoneAndTheNextComesUp() {
        Slot eight = slot(8, OptionalLong.empty());
        Slot twelve = slot(12, OptionalLong.empty());
        slots.put(eight);
        slots.put(twelve);
        assertThat(slots.giveUp(8)).contains(eight);
        assertThat(slots.giveUp(8)).isEmpty();
        assertThat(slots.winner()).contains(twelve);
        slots.clear();
        assertThat(slots.all()).isEmpty();
    }

    /** The clock's ticks may pass their greatest number: the lease is a difference, not an order of numbers. */
    @Test
    void aLeaseEndsAtItsTickAndNotBeforeAndOneWithoutEndNever() {
        long start = Long.MAX_VALUE - 5;
        Slot leased = slot(8, OptionalLong.of(start + 10));
        Slot kept = slot(12, OptionalLong.empty());
        slots.put(leased);
        slots.put(kept);
        assertThat(slots.end(start)).isEmpty();
        assertThat(slots.end(start + 9)).isEmpty();
        assertThat(slots.winner()).contains(leased);
        assertThat(slots.end(start + 10)).containsExactly(leased);
        assertThat(slots.all()).containsExactly(kept);
    }
}
