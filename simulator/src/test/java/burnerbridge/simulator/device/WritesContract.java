package burnerbridge.simulator.device;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.manners.WriteManners;
import burnerbridge.simulator.manners.WriteMisbehaviour;
import burnerbridge.simulator.modbus.AcceptingImage;
import burnerbridge.simulator.modbus.AcceptingImage.Accepted;
import burnerbridge.simulator.modbus.FixedImage;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.IOException;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** What a field device does with writes, over TCP by bytes made by hand. Of unit 3 register 16 to 18 take them. */
abstract class WritesContract {
    private static final HexFormat HEX = HexFormat.of().withUpperCase();

    private final AcceptingImage image = new AcceptingImage(
            new FixedImage(ModbusTable.HOLDING_REGISTER, 16, 1, 2, 3, 4),
            List.of(new Accepted(ModbusTable.HOLDING_REGISTER, 16, 18)));

    @SuppressWarnings("NullAway.Init")
    private FieldDevice device;

    @SuppressWarnings("NullAway.Init")
    private HandMadeClient client;

    abstract Door door();

    /** A whole frame of unit 3. */
    abstract String frame(String pdu);

    @BeforeEach
    void start() throws IOException {
        device = new FieldDevice(
                door(), Map.of(3, image, 4, new FixedImage(ModbusTable.HOLDING_REGISTER, 16, 9)), UnknownUnit.SILENT);
        device.start();
        client = new HandMadeClient(device.port());
    }

    @AfterEach
    void end() throws IOException {
        client.close();
        device.close();
    }

    private void misbehave(WriteMisbehaviour what, int number) {
        device.behaveTowardWrites(what.manners(number, new Random(20261125)));
    }

    private void asks(String pdu, String said) throws IOException {
        assertThat(client.ask(frame(pdu), frame(said).length() / 2)).isEqualTo(frame(said));
    }

    private void assertHolds(int value) throws IOException {
        asks("0300100001", "0302" + HEX.toHexDigits((short) value));
    }

    private void assertRecorded(String pdu, boolean done) {
        assertThat(device.written()).singleElement().satisfies(frame -> {
            assertThat(HEX.formatHex(frame.bytes())).isEqualTo(frame(pdu));
            assertThat(frame.unit()).isEqualTo(3);
            assertThat(frame.done()).isEqualTo(done);
            assertThat(System.nanoTime() - frame.nanos()).isBetween(0L, 60_000_000_000L);
        });
    }

    @ParameterizedTest
    @CsvSource({
        "0600100384, 0600100384, 900",
        "100010000204038400FF, 1000100002, 900",
        "160010FF00007F, 160010FF00007F, 127"
    })
    void aWriteIsDoneAndAnsweredAndRecordedAsOneFrame(String request, String reply, int value) throws IOException {
        asks(request, reply);
        assertHolds(value);
        assertRecorded(request, true);
    }

    @ParameterizedTest
    @CsvSource({"0600130384, 8602", "0500100000, 8502", "0600FF0384, 8602", "17001000010010000102FFFF, 9701"})
    void whatIsRefusedIsRecordedToo(String request, String reply) throws IOException {
        asks(request, reply);
        assertHolds(1);
        assertRecorded(request, false);
    }

    @Test
    void readsAreNotRecorded() throws IOException {
        assertHolds(1);
        assertThat(device.written()).isEmpty();
    }

    @Test
    void frameByFrameIsCountedThoughNothingChanges() throws IOException {
        for (int i = 0; i < 5; i++) {
            asks("0600100001", "0600100001");
        }
        assertHolds(1);
        assertThat(device.written()).hasSize(5).allMatch(WrittenFrame::done);
    }

    @Test
    void whatComesWhileTheCableIsPulledIsRecorded() throws IOException {
        device.pullCable(3);
        client.send(frame("0600100384"));
        assertThat(client.hearsNothing()).isTrue();
        device.plugCableIn(3);
        assertHolds(1);
        assertRecorded("0600100384", false);
    }

    @Test
    void aWriteMayBeDoneWithoutAReply() throws IOException {
        misbehave(WriteMisbehaviour.WRITE_SILENT, 0);
        client.send(frame("0600100384"));
        assertThat(client.hearsNothing()).isTrue();
        assertHolds(900);
        assertRecorded("0600100384", true);
    }

    @Test
    void aWriteMayBeRefusedWithACode() throws IOException {
        misbehave(WriteMisbehaviour.WRITE_EXCEPTION, 6);
        asks("0600100384", "8606");
        assertHolds(1);
        assertRecorded("0600100384", false);
    }

    @Test
    void aWriteMayBeAcceptedAndNotDone() throws IOException {
        misbehave(WriteMisbehaviour.WRITE_NOT_DONE, 0);
        asks("0600100384", "0600100384");
        assertHolds(1);
        assertRecorded("0600100384", false);
    }

    @Test
    void aWriteMayBeDoneLate() throws IOException {
        misbehave(WriteMisbehaviour.WRITE_DONE_LATE, 1000);
        asks("0600100384", "0600100384");
        assertHolds(1);
        assertRecorded("0600100384", false);
        Awaitility.await().until(() -> device.written().get(0).done());
        assertHolds(900);
    }

    @Test
    void anotherValueMayBeTakenThanWasWritten() throws IOException {
        misbehave(WriteMisbehaviour.WRITE_CHANGED, 0);
        asks("0600100384", "0600100384");
        assertHolds(901);
    }

    @Test
    void anotherWriterMayBringBackWhatWasThere() throws Exception {
        misbehave(WriteMisbehaviour.WRITE_UNDONE, 1000);
        asks("0600100384", "0600100384");
        assertHolds(900);
        assertRecorded("0600100384", true);
        Awaitility.await()
                .until(() -> client.ask(frame("0300100001"), frame("03020000").length() / 2)
                        .equals(frame("03020001")));
        assertThat(device.written()).hasSize(1);
    }

    @Test
    void aReplyMayNameSomethingElse() throws IOException {
        misbehave(WriteMisbehaviour.WRITE_WRONG_ECHO, 0);
        String said = client.ask(frame("0600100384"), frame("0600100384").length() / 2);
        assertThat(said).isNotEqualTo(frame("0600100384"));
        assertHolds(900);
    }

    @Test
    void aReplyMayBeCutOffOrComeTwice() throws IOException {
        misbehave(WriteMisbehaviour.WRITE_TWICE, 0);
        String right = frame("0600100384");
        assertThat(client.ask(right, right.length())).isEqualTo(right + right);
        misbehave(WriteMisbehaviour.WRITE_CUT_OFF, 0);
        client.send(frame("0600100385"));
        assertThat(client.receive(1)).isEqualTo(right.substring(0, 2));
        assertThat(image.read(ModbusTable.HOLDING_REGISTER, 16, 1).orElseThrow())
                .containsExactly(901);
    }

    /** Reads are answered well whatever writes meet, and each misbehaviour ends. */
    @ParameterizedTest
    @EnumSource
    void readsAreLeftAlone(WriteMisbehaviour what) throws IOException {
        misbehave(what, what.argument().isPresent() ? 1 : 0);
        assertHolds(1);
        device.behaveTowardWrites(WriteManners.WELL);
        asks("0600100384", "0600100384");
        assertHolds(900);
    }

    @Test
    void aUnitWithoutWritesRefusesTheirFunctionAndThatIsRecorded() throws IOException {
        assertThat(device.written()).isEmpty();
        client.send(frame("0600100384").replaceFirst("^(0001000000..)?03", "$104"));
        Awaitility.await().until(() -> !device.written().isEmpty() || door() instanceof Door.RtuOverTcp);
        assertThat(device.written()).noneMatch(WrittenFrame::done);
    }
}
