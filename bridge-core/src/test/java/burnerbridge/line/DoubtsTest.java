package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import org.junit.jupiter.api.Test;

class DoubtsTest {
    private static final ReadRequest ASKED = new ReadRequest(new UnitId(3), RegisterTable.HOLDING_REGISTER, 10, 2);

    private final HandClock clock = new HandClock();
    private final Doubts doubts = new Doubts(Duration.ofSeconds(2));

    private int about(int unit, RegisterTable table, int first) {
        return doubts.about(new ReadRequest(new UnitId(unit), table, first, 1), clock.ticks());
    }

    private void silent() {
        doubts.note(ASKED, new Outcome.Silent(clock.now()));
    }

    @Test
    void everyUnansweredRequestIsADoubtAboutLaterOnesOfItsUnitAndFunction() {
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 99)).isZero();
        silent();
        doubts.note(ASKED, new Outcome.Broken(Fault.CHECKSUM, "", clock.now()));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 99)).isEqualTo(2);
        assertThat(about(4, RegisterTable.HOLDING_REGISTER, 10)).isZero();
        assertThat(about(3, RegisterTable.INPUT_REGISTER, 10)).isZero();
    }

    @Test
    void aReplyOfTheUnitSettlesThem() {
        silent();
        silent();
        doubts.note(
                new ReadRequest(new UnitId(4), RegisterTable.COIL, 0, 1),
                new Outcome.Answered(Registers.of(1), clock.now()));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isEqualTo(2);
        doubts.note(
                new ReadRequest(new UnitId(3), RegisterTable.COIL, 0, 1),
                new Outcome.Answered(Registers.of(1), clock.now()));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isZero();
    }

    @Test
    void aRequestThatNeverLeftIsNoDoubt() {
        doubts.note(ASKED, new Outcome.NotConnected("no port"));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isZero();
    }

    @Test
    void aReplyIsNotThoughtPossibleForEver() {
        silent();
        clock.forward(Duration.ofMillis(1_500));
        silent();
        clock.forward(Duration.ofMillis(500));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isEqualTo(1);
        clock.forward(Duration.ofMillis(1_500));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isZero();
    }
}
