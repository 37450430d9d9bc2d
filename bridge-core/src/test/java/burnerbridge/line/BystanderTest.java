package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.frame.FakeWire;
import burnerbridge.line.frame.RtuFraming;
import burnerbridge.line.wire.Deadline;
import burnerbridge.line.wire.Reception;
import burnerbridge.line.wire.Silence;
import burnerbridge.line.wire.WireTime;
import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

class BystanderTest {
    private static final UnitId UNIT = new UnitId(17);
    private static final ReadRequest HUNDRED = new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 0, 100);
    private static final byte[] REPLY = ScriptedPeer.Shape.RTU.frame(new byte[0], 17, "03 C8" + "00 01".repeat(100));
    private static final LineDefinition LINE = new LineDefinition(
            new Name("tested"),
            new LineDefinition.RtuOverTcp("127.0.0.1", 1, 1200),
            Duration.ofMillis(20),
            Duration.ofSeconds(3));

    private final HandClock clock = new HandClock();
    private final FakeWire wire = new FakeWire(clock);
    private final LineCounters counters = new LineCounters();
    private final Bystander bystander = new Bystander(
            LINE,
            new RtuFraming(
                    new WireTime(1200, 11),
                    new Silence(Duration.ZERO, clock, nanos -> clock.forward(Duration.ofNanos(nanos))),
                    false),
            counters,
            clock,
            LoggerFactory.getLogger("tested"));

    private void asks(Outcome outcome) {
        bystander.sent(HUNDRED, new byte[] {17, 3});
        bystander.ended(outcome, new Reception(wire, Deadline.after(Duration.ZERO, clock), clock));
    }

    private long heardAfter(Duration time, Heard what) throws IOException {
        asks(new Outcome.Silent(clock.now()));
        clock.forward(time);
        asks(new Outcome.Answered(Registers.of(1), clock.now()));
        assertThat(bystander.hears(wire.brings(REPLY), false)).isTrue();
        return counters.ofUnit(UNIT).heard(what);
    }

    /** A hundred registers are on this wire for two seconds. */
    @Test
    void aReplyThatIsLongOnItsWireIsLateAndNoSecondOne() throws IOException {
        assertThat(heardAfter(Duration.ofMillis(1_900), Heard.LATE_REPLY)).isEqualTo(1);
    }

    @Test
    void whatComesWhenNoReplyIsThoughtPossibleIsASecondOne() throws IOException {
        assertThat(heardAfter(Duration.ofMillis(2_200), Heard.SECOND_REPLY)).isEqualTo(1);
    }

    @Test
    void whereNothingComesNothingIsHeard() throws IOException {
        assertThat(bystander.hears(wire, false)).isFalse();
        assertThat(bystander.hears(wire, true)).isFalse();
        assertThat(counters.ofLine().unasked()).isZero();
    }
}
