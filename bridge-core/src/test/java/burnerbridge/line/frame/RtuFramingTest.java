package burnerbridge.line.frame;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Fault;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.ReadTerms;
import burnerbridge.line.ScriptedPeer;
import burnerbridge.line.wire.Deadline;
import burnerbridge.line.wire.Reception;
import burnerbridge.line.wire.Silence;
import burnerbridge.line.wire.WireTime;
import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.time.Duration;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The reader of RTU frames, fed from a wire without a socket. */
class RtuFramingTest {
    private static final ReadRequest THREE = new ReadRequest(new UnitId(17), RegisterTable.HOLDING_REGISTER, 107, 3);
    private static final byte[] SENT = ScriptedPeer.hex("11 03 00 6B 00 03 76 87");
    private static final byte[] REPLY = ScriptedPeer.Shape.RTU.frame(SENT, 17, "03 06 02 2B 00 00 00 64");

    private final HandClock clock = new HandClock();
    private final FakeWire wire = new FakeWire(clock);

    private Pdu.Content receive(boolean echo, byte[] sent, ReadRequest request) throws IOException {
        WireTime time = new WireTime(9600, 11);
        RtuFraming framing = new RtuFraming(time, new Silence(time.silence(), clock, n -> {}), echo);
        Deadline deadline = Deadline.after(Duration.ofMillis(500), clock);
        return framing.receive(new Reception(wire, deadline, clock), sent, request);
    }

    private Pdu.Content receive(boolean echo) throws IOException {
        return receive(echo, SENT, THREE);
    }

    private void assertWrong(Pdu.Content content, Fault fault) {
        assertThat(content).isInstanceOf(Pdu.Content.Wrong.class);
        assertThat(((Pdu.Content.Wrong) content).fault()).isEqualTo(fault);
    }

    private static byte[] joined(byte[]... parts) {
        byte[] all = new byte[0];
        for (byte[] part : parts) {
            byte[] next = java.util.Arrays.copyOf(all, all.length + part.length);
            System.arraycopy(part, 0, next, all.length, part.length);
            all = next;
        }
        return all;
    }

    @Test
    void aReplyInAnyPiecesIsOne() throws IOException {
        long seed = Seed.value();
        Random random = new Random(seed);
        for (int i = 0; i < 500; i++) {
            wire.bringsInPieces(REPLY, random);
            assertThat(((Pdu.Content.Data) receive(false)).words())
                    .as("seed " + seed)
                    .containsExactly(555, 0, 100);
        }
    }

    @Test
    void noReplyWithOneBitChangedIsTaken() throws IOException {
        for (int bit = 0; bit < REPLY.length * 8; bit++) {
            byte[] spoilt = REPLY.clone();
            spoilt[bit / 8] ^= (byte) (1 << bit % 8);
            wire.brings(spoilt);
            assertThat(receive(false)).isInstanceOf(Pdu.Content.Wrong.class);
        }
    }

    /** Sixteen bits of checksum miss one in 65,536 of what is altogether random; two bytes changed they never miss. */
    @Test
    void noReplyWithTwoNeighbouringBytesChangedIsTaken() throws IOException {
        long seed = Seed.value();
        Random random = new Random(seed);
        for (int i = 0; i < 5_000; i++) {
            byte[] spoilt = REPLY.clone();
            int at = random.nextInt(spoilt.length - 1);
            int change = 1 + random.nextInt(0xFFFF);
            spoilt[at] ^= (byte) (change >> 8);
            spoilt[at + 1] ^= (byte) change;
            wire.bringsInPieces(spoilt, random);
            assertThat(receive(false)).as("seed " + seed).isInstanceOf(Pdu.Content.Wrong.class);
        }
    }

    @Test
    void nothingIsNothing() throws IOException {
        assertThat(receive(false)).isEqualTo(new Pdu.Content.Nothing());
    }

    @Test
    void anEchoIsTakenOffWhereTheLineIsSaidToEcho() throws IOException {
        wire.bringsInPieces(joined(SENT, REPLY), new Random(1));
        assertThat(((Pdu.Content.Data) receive(true)).words()).containsExactly(555, 0, 100);
        wire.brings(SENT);
        assertThat(receive(true)).isEqualTo(new Pdu.Content.Nothing());
    }

    @Test
    void anEchoMustBeTheRequestByteForByte() throws IOException {
        byte[] other = SENT.clone();
        other[3] ^= 1;
        wire.brings(joined(other, REPLY));
        assertWrong(receive(true), Fault.ECHO);
        wire.brings(REPLY);
        assertWrong(receive(true), Fault.ECHO);
        assertWrong(receive(true), Fault.ECHO);
    }

    /**
     * The echo of a request for one register below 768 begins like a reply of two data bytes. For one
     * address in 65,536 even the checksum of that reply holds.
     */
    @Test
    void noEchoOfAnyRequestIsTakenForItsReply() throws IOException {
        for (int first = 0x0200; first < 0x0300; first++) {
            for (int unit = 1; unit <= 247; unit++) {
                ReadRequest one = new ReadRequest(new UnitId(unit), RegisterTable.HOLDING_REGISTER, first, 1);
                byte[] sent = RtuFrame.of(one.unit(), Pdu.encode(one));
                wire.brings(sent);
                assertWrong(receive(false, sent, one), Fault.ECHO);
            }
        }
    }

    @ParameterizedTest
    @CsvSource({
        "12 0306022B00000064, UNIT",
        "11 0406022B00000064, FUNCTION",
        "11 0304022B0000, LENGTH",
        "11 830200, LENGTH",
        "11 8300, LENGTH"
    })
    void aWholeFrameIsToldByWhatIsWrongWithIt(String body, Fault fault) throws IOException {
        byte[] bytes = ScriptedPeer.hex(body);
        String pdu = Pdu.hex(java.util.Arrays.copyOfRange(bytes, 1, bytes.length));
        wire.bringsInPieces(ScriptedPeer.Shape.RTU.frame(SENT, bytes[0], pdu), new Random(2));
        assertWrong(receive(false), fault);
    }

    @Test
    void noiseBeforeAReplyIsToldAsStrayBytes() throws IOException {
        wire.brings(joined(new byte[] {0}, REPLY));
        assertWrong(receive(false), Fault.STRAY_BYTES);
        wire.brings(joined(new byte[] {17, 3}, ScriptedPeer.Shape.RTU.frame(SENT, 17, "83 02")));
        assertWrong(receive(false), Fault.STRAY_BYTES);
    }

    @Test
    void anEndlessBabbleEnds() throws IOException {
        for (int i = 0; i < 200; i++) {
            wire.brings(new byte[] {1, 2, 3, 4});
        }
        assertWrong(receive(false), Fault.FRAMING);
    }

    private static ReadRequest any(ReadRequest request) {
        return new ReadRequest(
                request.unit(),
                request.table(),
                request.first(),
                request.count(),
                new ReadTerms(true, false, Duration.ZERO));
    }

    @Test
    void aReplyOfAnyUnitIsTakenWhereItIsSaidToBePossible() throws IOException {
        for (int unit = 0; unit <= 255; unit++) {
            byte[] reply = ScriptedPeer.Shape.RTU.frame(SENT, unit, "03 06 02 2B 00 00 00 64");
            wire.bringsInPieces(reply, new Random(unit));
            assertThat(((Pdu.Content.Data) receive(false, SENT, any(THREE))).words())
                    .containsExactly(555, 0, 100);
            wire.brings(ScriptedPeer.Shape.RTU.frame(SENT, unit, "83 0B"));
            assertThat(receive(false, SENT, any(THREE))).isEqualTo(new Pdu.Content.Exception(11));
        }
    }

    @Test
    void nothingElseIsLessStrictForThat() throws IOException {
        for (int bit = 0; bit < REPLY.length * 8; bit++) {
            byte[] spoilt = REPLY.clone();
            spoilt[bit / 8] ^= (byte) (1 << bit % 8);
            wire.brings(spoilt);
            assertThat(receive(false, SENT, any(THREE))).isInstanceOf(Pdu.Content.Wrong.class);
        }
        wire.brings(ScriptedPeer.Shape.RTU.frame(SENT, 18, "04 06 02 2B 00 00 00 64"));
        assertWrong(receive(false, SENT, any(THREE)), Fault.FUNCTION);
        wire.brings(ScriptedPeer.Shape.RTU.frame(SENT, 18, "03 04 02 2B 00 00"));
        assertWrong(receive(false, SENT, any(THREE)), Fault.LENGTH);
    }

    @Test
    void anEchoIsNoReplyOfAnyUnit() throws IOException {
        for (int first = 0x0200; first < 0x0300; first++) {
            for (int unit = 1; unit <= 247; unit++) {
                ReadRequest one = any(new ReadRequest(new UnitId(unit), RegisterTable.HOLDING_REGISTER, first, 1));
                byte[] sent = RtuFrame.of(one.unit(), Pdu.encode(one));
                wire.brings(sent);
                assertWrong(receive(false, sent, one), Fault.ECHO);
            }
        }
    }
}
