package burnerbridge.daemon.writes;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Lines;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.WritableLine;
import burnerbridge.line.WriteOutcome;
import burnerbridge.line.WriteOutcome.Accepted;
import burnerbridge.line.WriteOutcome.NotSent;
import burnerbridge.line.WriteOutcome.Refused;
import burnerbridge.line.WriteOutcome.Unknown;
import burnerbridge.line.WriteTemplate;
import burnerbridge.model.Registers;
import burnerbridge.model.RunningClock;
import burnerbridge.model.Seed;
import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WrittenFrame;
import burnerbridge.simulator.manners.WriteManners;
import burnerbridge.simulator.manners.WriteMisbehaviour;
import burnerbridge.simulator.modbus.AcceptingImage;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.UnknownUnit;
import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.TypeOptions;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import java.io.IOException;
import java.time.Duration;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Whatever a device makes of writes: each leaves once, what became of it is never told better than it is, and no read
 * is wrong because of it. Of unit 1 registers 40 to 49 and coils 16 to 31 can be written; the type protects 500 to 599.
 */
abstract class WritesContract {
    static final Duration TIMEOUT = Duration.ofMillis(150);
    static final int BAUD = 115_200;
    private static final int WRITES = 400;
    private static final UnitId UNIT = new UnitId(1);
    private static final WriteTemplate REGISTER = template(6, RegisterTable.HOLDING_REGISTER, 44, 1, 0);
    private static final WriteTemplate REGISTERS = template(16, RegisterTable.HOLDING_REGISTER, 40, 3, 0);
    private static final WriteTemplate BITS = template(22, RegisterTable.HOLDING_REGISTER, 47, 1, 0xFF0F);
    private static final WriteTemplate COIL = template(5, RegisterTable.COIL, 16, 1, 0);
    private static final WriteTemplate COILS = template(15, RegisterTable.COIL, 18, 10, 0);
    private static final List<WriteTemplate> TEMPLATES = List.of(REGISTER, REGISTERS, BITS, COIL, COILS);
    private static final ReadRequest ELSEWHERE = new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 900, 2);

    private final AcceptingImage image = new AcceptingImage(
            (table, address, count) -> {
                int[] values = new int[count];
                Arrays.setAll(values, i -> table == ModbusTable.HOLDING_REGISTER ? address + i : 0);
                return Optional.of(values);
            },
            List.of(
                    new AcceptingImage.Accepted(ModbusTable.HOLDING_REGISTER, 40, 49),
                    new AcceptingImage.Accepted(ModbusTable.COIL, 16, 31)));

    @SuppressWarnings("NullAway.Init")
    private FieldDevice device;

    @SuppressWarnings("NullAway.Init")
    private WritableLine line;

    abstract Door door() throws IOException;

    abstract LineDefinition.Endpoint endpoint(FieldDevice device);

    private static WriteTemplate template(int function, RegisterTable table, int first, int count, int mask) {
        return new WriteTemplate(UNIT, function, AddressRange.of(table, first, count), mask);
    }

    private static Guard guard() {
        TypeOptions options = new TypeOptions(
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of(new TypeOptions.Stated(
                        "holding-register 501-600", new AddressRange(RegisterTable.HOLDING_REGISTER, 500, 599))),
                true);
        return Guard.ofUnit(List.of(new ControllerDefinition(
                0,
                new Name("boiler-1"),
                new Name("annex"),
                UNIT,
                new ControllerType(new Name("hot-water"), List.of(), ReadRules.NONE, options),
                1000)));
    }

    @BeforeEach
    void start() throws IOException {
        device = new FieldDevice(door(), Map.of(1, image), UnknownUnit.SILENT);
        device.start();
        line = Lines.writable(
                new LineDefinition(new Name("annex"), endpoint(device), TIMEOUT, Duration.ofSeconds(3)),
                new RunningClock(),
                TEMPLATES,
                Map.of(UNIT, guard()));
        connect();
    }

    @AfterEach
    void end() {
        line.transport().close();
        device.close();
    }

    /** Reads until it is answered; what is read is never another's. */
    private void connect() {
        Awaitility.await().until(() -> {
            Outcome outcome = line.transport().read(ELSEWHERE);
            if (outcome instanceof Outcome.Answered answered) {
                assertThat(answered.data()).isEqualTo(Registers.of(900, 901));
            }
            return outcome instanceof Outcome.Answered;
        });
    }

    private int held(RegisterTable table, int address) {
        int[] value = {-1};
        Awaitility.await().until(() -> {
            Outcome outcome = line.transport().read(new ReadRequest(UNIT, table, address, 1));
            value[0] = outcome instanceof Outcome.Answered answered
                    ? answered.data().word(0)
                    : -1;
            return outcome instanceof Outcome.Answered;
        });
        return value[0];
    }

    private WriteOutcome write(WriteMisbehaviour what, int number) {
        device.behaveTowardWrites(what.manners(number, new Random(Seed.value())));
        return line.writes().write(REGISTER, Registers.of(900));
    }

    private void assertOneFrame(boolean done) {
        Awaitility.await()
                .until(() ->
                        device.written().size() == 1 && device.written().get(0).done() == done);
        byte[] bytes = device.written().get(0).bytes();
        assertThat(java.util.HexFormat.of().formatHex(bytes)).contains("0106002c0384");
    }

    @Test
    void aWriteThatIsDoneIsAcceptedAndHeld() {
        assertThat(line.writes().write(REGISTER, Registers.of(900))).isInstanceOf(Accepted.class);
        assertThat(held(RegisterTable.HOLDING_REGISTER, 44)).isEqualTo(900);
        assertThat(line.writes().write(REGISTERS, Registers.of(7, 8, 9))).isInstanceOf(Accepted.class);
        assertThat(held(RegisterTable.HOLDING_REGISTER, 42)).isEqualTo(9);
        assertThat(line.writes().write(BITS, Registers.of(0xAB55))).isInstanceOf(Accepted.class);
        // It held 47, of which the bits 4 to 7 stay.
        assertThat(held(RegisterTable.HOLDING_REGISTER, 47)).isEqualTo(0xAB25);
        assertThat(line.writes().write(COIL, Registers.of(1))).isInstanceOf(Accepted.class);
        assertThat(held(RegisterTable.COIL, 16)).isEqualTo(1);
        assertThat(line.writes().write(COILS, Registers.of(0, 0, 0, 0, 0, 0, 0, 0, 0, 1)))
                .isInstanceOf(Accepted.class);
        assertThat(held(RegisterTable.COIL, 27)).isEqualTo(1);
        assertThat(device.written()).hasSize(5).allMatch(WrittenFrame::done);
    }

    @Test
    void doneWithoutAReplyIsUnknownAndSentOnce() {
        assertThat(write(WriteMisbehaviour.WRITE_SILENT, 0)).isInstanceOf(Unknown.class);
        assertThat(held(RegisterTable.HOLDING_REGISTER, 44)).isEqualTo(900);
        assertOneFrame(true);
    }

    @Test
    void anExceptionIsARefusal() {
        assertThat(((Refused) write(WriteMisbehaviour.WRITE_EXCEPTION, 4)).code())
                .isEqualTo(4);
        assertThat(held(RegisterTable.HOLDING_REGISTER, 44)).isEqualTo(44);
        assertOneFrame(false);
    }

    /** That is why an accepted write proves nothing. */
    @Test
    void whatIsAcceptedAndNotDoneOrDoneOtherwiseIsSeenWhenItIsReadBack() {
        assertThat(write(WriteMisbehaviour.WRITE_NOT_DONE, 0)).isInstanceOf(Accepted.class);
        assertThat(held(RegisterTable.HOLDING_REGISTER, 44)).isEqualTo(44);
        assertThat(write(WriteMisbehaviour.WRITE_CHANGED, 0)).isInstanceOf(Accepted.class);
        assertThat(held(RegisterTable.HOLDING_REGISTER, 44)).isEqualTo(901);
    }

    @ParameterizedTest
    @EnumSource(names = {"WRITE_WRONG_ECHO", "WRITE_CUT_OFF"})
    void aReplyThatIsNotTheReplyIsUnknown(WriteMisbehaviour what) {
        assertThat(write(what, 0)).isInstanceOf(Unknown.class);
        assertThat(held(RegisterTable.HOLDING_REGISTER, 44)).isEqualTo(900);
        assertOneFrame(true);
    }

    @Test
    void aReplyThatComesTwiceIsTakenOnce() {
        assertThat(write(WriteMisbehaviour.WRITE_TWICE, 0)).isInstanceOf(Accepted.class);
        assertThat(held(RegisterTable.HOLDING_REGISTER, 44)).isEqualTo(900);
        assertOneFrame(true);
    }

    /** Its late reply is that of a write which the device never got. */
    @Test
    void aReplyThatComesLateIsNotThatToTheNextWrite() {
        assertThat(write(WriteMisbehaviour.WRITE_ANSWERED_LATE, 2 * (int) TIMEOUT.toMillis()))
                .isInstanceOf(Unknown.class);
        connect();
        device.behaveTowardWrites(WriteMisbehaviour.WRITE_SILENT.manners(0, new Random(1)));
        WriteOutcome second = line.writes().write(REGISTER, Registers.of(900));
        assertThat(second).isNotInstanceOf(Accepted.class);
    }

    @Test
    void whatSomebodyElseBringsBackIsSeen() {
        assertThat(write(WriteMisbehaviour.WRITE_UNDONE, 300)).isInstanceOf(Accepted.class);
        Awaitility.await().until(() -> held(RegisterTable.HOLDING_REGISTER, 44) == 44);
        assertOneFrame(true);
    }

    /** Four hundred writes toward which a device misbehaves in every way, as a seed decides. */
    @Test
    void noWriteIsToldBetterThanItIsAndNoneIsSentTwice() {
        Random dice = new Random(Seed.value());
        Map<WriteMisbehaviour, Integer> played = new EnumMap<>(WriteMisbehaviour.class);
        int sent = 0;
        int accepted = 0;
        int unknown = 0;
        for (int i = 0; i < WRITES; i++) {
            Optional<WriteMisbehaviour> what = drawn(dice);
            device.behaveTowardWrites(
                    what.map(some -> some.manners(argument(some, dice), dice)).orElse(WriteManners.WELL));
            WriteTemplate template = TEMPLATES.get(dice.nextInt(TEMPLATES.size()));
            Registers value = value(template, dice);
            WriteOutcome outcome = line.writes().write(template, value);
            String told = "seed " + Seed.value() + ", write " + i + ", " + what + ": " + outcome;
            if (outcome instanceof NotSent) {
                // What came late ended the connection before it.
                assertThat(device.written()).as(told).hasSize(sent);
            } else {
                sent++;
                int all = sent;
                Awaitility.await(told).until(() -> device.written().size() >= all);
                assertThat(device.written()).as(told).hasSize(sent);
                what.ifPresent(some -> played.merge(some, 1, Integer::sum));
                assertTold(told, what, outcome);
                accepted += outcome instanceof Accepted ? 1 : 0;
                unknown += outcome instanceof Unknown ? 1 : 0;
            }
            connect();
        }
        System.out.println("Writes, " + device.transport() + ": " + sent + " of " + WRITES + " sent, " + accepted
                + " accepted, " + unknown + " unknown; misbehaviours " + played);
        assertThat(sent).isGreaterThan(WRITES / 2);
        assertThat(accepted).isGreaterThan(WRITES / 4);
        assertThat(unknown).isGreaterThan(20);
    }

    private Optional<WriteMisbehaviour> drawn(Random dice) {
        WriteMisbehaviour[] all = WriteMisbehaviour.values();
        WriteMisbehaviour what = all[dice.nextInt(all.length)];
        return dice.nextInt(3) > 0 || !what.makesSenseOn(device.transport()) ? Optional.empty() : Optional.of(what);
    }

    private static int argument(WriteMisbehaviour what, Random dice) {
        return switch (what) {
            case WRITE_EXCEPTION -> 1 + dice.nextInt(11);
            case WRITE_ANSWERED_LATE -> 2 * (int) TIMEOUT.toMillis() + dice.nextInt(100);
            case WRITE_DONE_LATE, WRITE_UNDONE -> dice.nextInt(300);
            default -> 0;
        };
    }

    private static Registers value(WriteTemplate template, Random dice) {
        int[] words = new int[template.range().count()];
        Arrays.setAll(words, i -> dice.nextInt(template.range().table().ofBits() ? 2 : 0x10000));
        return Registers.of(words);
    }

    private static void assertTold(String told, Optional<WriteMisbehaviour> what, WriteOutcome outcome) {
        if (what.isEmpty()) {
            // The machine may have been slower than the time-out; it is never told as refused.
            assertThat(outcome).as(told).isNotInstanceOf(Refused.class);
            return;
        }
        switch (what.get()) {
            case WRITE_SILENT, WRITE_WRONG_ECHO, WRITE_CUT_OFF, WRITE_ANSWERED_LATE, WRITE_HANG_UP ->
                assertThat(outcome).as(told).isInstanceOf(Unknown.class);
            case WRITE_EXCEPTION -> assertThat(outcome).as(told).isNotInstanceOf(Accepted.class);
            default -> assertThat(outcome).as(told).isNotInstanceOf(Refused.class);
        }
    }
}
