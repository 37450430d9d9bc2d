package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.ReadRequest;
import burnerbridge.line.frame.RtuFraming;
import burnerbridge.line.wire.Silence;
import burnerbridge.line.wire.WireTime;
import burnerbridge.model.HandClock;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import burnerbridge.site.LineDefinition.RtuOverTcp;
import burnerbridge.site.LineDefinition.Serial;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CostModelTest {

    private static CostModel model(LineDefinition.Endpoint endpoint) {
        return CostModel.of(
                new LineDefinition(new Name("annex"), endpoint, Duration.ofSeconds(1), Duration.ofSeconds(3)));
    }

    private static Serial serial(int baud, Parity parity, int stopBits) {
        return new Serial("/dev/tty", baud, parity, stopBits, Rs485.AUTO, false);
    }

    private static ReadRequest read(RegisterTable table, int count) {
        return new ReadRequest(new UnitId(1), table, 0, count);
    }

    private static double millis(Duration duration) {
        return duration.toNanos() / 1e6;
    }

    /**
     * By hand. At 19,200 baud a character of 11 bits takes 0.5729 ms: 13 + 250 of them and twice 3.5 are 270
     * characters, 154.7 ms. At 38,400 baud 33 characters of 0.2865 ms and twice 1.75 ms are 12.95 ms.
     */
    @ParameterizedTest
    @CsvSource({
        "9600, 10, 0, 45.8",
        "9600, 100, 0, 252.1",
        "9600, 125, 0, 309.4",
        "19200, 1, 0, 12.6",
        "19200, 10, 0, 22.9",
        "19200, 100, 0, 126.0",
        "19200, 125, 0, 154.7",
        "19200, 125, 20, 174.7",
        "38400, 10, 0, 13.0",
        "38400, 100, 0, 64.5",
        "38400, 125, 0, 78.8",
        "115200, 10, 0, 6.7",
        "115200, 100, 0, 23.8",
        "115200, 125, 5, 33.6",
    })
    void aReadOfRegistersTakesWhatItsCharactersTake(int baud, int registers, int turnaround, double expected) {
        Duration took = model(new RtuOverTcp("127.0.0.1", 7001, baud))
                .of(read(RegisterTable.HOLDING_REGISTER, registers), Duration.ofMillis(turnaround));
        assertThat(millis(took)).isBetween(expected - 0.05, expected + 0.05);
        assertThat(model(serial(baud, Parity.EVEN, 1))
                        .of(read(RegisterTable.INPUT_REGISTER, registers), Duration.ofMillis(turnaround)))
                .isEqualTo(took);
    }

    /**
     * By hand, 19,200 baud, 11 bits: 100 coils are 13 bytes, 26 + 7 characters, 18.91 ms; eight are one byte,
     * 14 + 7, 12.03 ms; the ninth makes it two, 12.60 ms; 2000 are 250, as 125 registers are.
     */
    @ParameterizedTest
    @CsvSource({"1, 12.031", "8, 12.031", "9, 12.604", "100, 18.906", "2000, 154.688"})
    void eightBitsAreOneCharacter(int bits, double expected) {
        CostModel model = model(serial(19_200, Parity.EVEN, 1));
        assertThat(millis(model.of(read(RegisterTable.COIL, bits), Duration.ZERO)))
                .isBetween(expected - 0.001, expected + 0.001);
    }

    /** By hand: 33 + 7 characters of 10 bits at 9600 baud are 41.67 ms, of 12 bits at 19,200 baud 25 ms. */
    @ParameterizedTest
    @CsvSource({"9600, NONE, 1, 41.667", "9600, NONE, 2, 45.833", "19200, ODD, 2, 25.0"})
    void parityAndStopBitsMakeCharactersLonger(int baud, Parity parity, int stopBits, double expected) {
        CostModel model = model(serial(baud, parity, stopBits));
        assertThat(millis(model.of(read(RegisterTable.HOLDING_REGISTER, 10), Duration.ZERO)))
                .isBetween(expected - 0.001, expected + 0.001);
    }

    @ParameterizedTest
    @CsvSource({"1, 0, 20020", "125, 0, 22500", "10, 5000000, 5020200"})
    void overTcpItIsAConstantAndTheTurnaround(int registers, long turnaround, long nanos) {
        CostModel model = model(new LineDefinition.Tcp("127.0.0.1", 502));
        assertThat(model.of(read(RegisterTable.HOLDING_REGISTER, registers), Duration.ofNanos(turnaround)))
                .isEqualTo(Duration.ofNanos(nanos));
    }

    /** The line keeps its deadlines and silences by its own reckoning; the plan must not know another. */
    @ParameterizedTest
    @ValueSource(ints = {1200, 2400, 4800, 9600, 19_200, 38_400, 57_600, 76_800, 115_200})
    void theLineReckonsTheSame(int baud) {
        WireTime time = new WireTime(baud, 11);
        RtuFraming framing = new RtuFraming(time, new Silence(time.silence(), new HandClock(), nanos -> {}), false);
        CostModel model = model(serial(baud, Parity.EVEN, 1));
        for (ReadRequest read : new ReadRequest[] {
            read(RegisterTable.HOLDING_REGISTER, 1),
            read(RegisterTable.INPUT_REGISTER, 125),
            read(RegisterTable.COIL, 17),
            read(RegisterTable.DISCRETE_INPUT, 2000)
        }) {
            Duration line = framing.wireTime(read).plus(time.silence()).plus(time.silence());
            assertThat(model.of(read, Duration.ZERO).minus(line).abs()).isLessThan(Duration.ofNanos(300));
            assertThat(model.exchange(read).minus(line.minus(time.silence())).abs())
                    .isLessThan(Duration.ofNanos(300));
        }
    }
}
