package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.time.Duration;
import java.util.Arrays;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;

/** What lines of RTU frames say besides. */
abstract class RtuDiagnosisContract<P extends ScriptedPeer> extends DiagnosisContract<P> {
    /** 5 + 80 bytes of reply. */
    static final ReadRequest FORTY = new ReadRequest(LineTransportContract.UNIT, RegisterTable.HOLDING_REGISTER, 0, 40);

    static final String FORTY_REPLY = "03 50" + "0102".repeat(40);

    private ScriptedPeer.Act bytes(String hex) {
        return (request, out, connection) -> out.write(ScriptedPeer.hex(hex));
    }

    private byte[] spoilt(byte[] frame) {
        frame[frame.length - 3] ^= 0x10;
        return frame;
    }

    private static byte[] joined(byte[]... parts) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            all.writeBytes(part);
        }
        return all.toByteArray();
    }

    /** Answers, and in the same breath sends more. */
    private void answersAndMore(byte[] more) {
        long before = transport.counts().unasked();
        assertThat(read(THREE, (request, out, connection) -> out.write(joined(peer.reply(request, THREE_REPLY), more))))
                .isInstanceOf(Outcome.Answered.class);
        // The rest is met by the next request, when it has come whole.
        Awaitility.await().pollDelay(Duration.ofMillis(30)).until(() -> true);
        assertThat(transport.counts().unasked()).isEqualTo(before);
        read(THREE, right(THREE_REPLY));
        assertThat(transport.counts().unasked()).isEqualTo(before + 1);
    }

    private static void write(OutputStream out, byte[]... parts) throws IOException {
        out.write(joined(parts));
    }

    @Test
    void onlyOurOwnBytesAreAnEcho() {
        read(5, THREE, (request, out, connection) -> out.write(request));
        assertFinds(Kind.ECHO, "5 times on 5 requests", "echo");
    }

    @Test
    void ourOwnBytesBeforeTheReplyAreAnEchoToo() {
        read(5, THREE, (request, out, connection) -> write(out, request, peer.reply(request, THREE_REPLY)));
        assertFinds(Kind.ECHO, "5 times on 5 requests", "echo");
    }

    @Test
    void bytesThatAreNoFramesAreTheSettings() {
        read(5, THREE, bytes("F3 00 C0 FE 00 80"));
        assertFinds(Kind.FRAMING, "5 times on 5 requests", "parity and stop bits");
        assertThat(transport.findings().get(0).lookAt()).contains("A and B swapped");
    }

    @Test
    void bytesThatAreNoFramesOfOneUnitAreThatUnitsSettings() {
        read(6, THREE, right(THREE_REPLY));
        read(5, THREE_OF_OTHER, bytes("F3 00 C0 FE 00 80"));
        assertFinds(Kind.FRAMING, OTHER, "5 times on 5 requests", "as set at this unit");
        assertThat(transport.findings().get(0).lookAt()).doesNotContain("A and B");
    }

    @Test
    void strayBytesBeforeRepliesAreTheBias() {
        read(
                5,
                THREE,
                (request, out, connection) -> write(out, ScriptedPeer.hex("00"), peer.reply(request, THREE_REPLY)));
        assertFinds(Kind.STRAY_BYTES, "5 times on 5 requests", "the bias of the line");
    }

    @Test
    void strayBytesBetweenTransactionsAreTheBias() {
        for (int i = 0; i < 5; i++) {
            answersAndMore(ScriptedPeer.hex("00 FF"));
        }
        assertThat(transport.counts().heard(Heard.NOISE)).isEqualTo(5);
        // No request failed: it is for the next look to find it.
        read(5, THREE, NOTHING);
        assertFinds(Kind.STRAY_BYTES, "5 times on 15 requests", "the bias of the line");
    }

    @Test
    void repliesWithoutTheirFirstByteAreTheTurnaround() {
        read(5, THREE, (request, out, connection) -> {
            byte[] reply = peer.reply(request, THREE_REPLY);
            out.write(reply, 1, reply.length - 1);
        });
        assertFinds(Kind.BEGINNING_LOST, "5 times on 5 requests", "the turnaround");
    }

    @Test
    void wrongChecksumsAreNoise() {
        read(5, THREE, (request, out, connection) -> out.write(spoilt(peer.reply(request, THREE_REPLY))));
        assertFinds(Kind.CHECKSUM, "5 times on 5 requests", "the shield");
    }

    @Test
    void wrongChecksumsOfLongRepliesAloneAreTheTermination() {
        read(25, THREE, right(THREE_REPLY));
        read(20, FORTY, (request, out, connection) -> out.write(spoilt(peer.reply(request, FORTY_REPLY))));
        assertFinds(
                Kind.CHECKSUM_RISES_WITH_LENGTH,
                "in 20 of 20 replies of more than 32 bytes and in 0 of 25 of at most 16 bytes",
                "the termination");
    }

    /** The first byte of the second reply falls onto the third of the first, and so on. */
    @Test
    void repliesOverEachOtherAreADoubledUnit() {
        read(6, THREE_OF_OTHER, right(THREE_REPLY));
        read(5, THREE, (request, out, connection) -> {
            byte[] one = peer.reply(request, THREE_REPLY);
            byte[] both = Arrays.copyOf(one, one.length + 4);
            for (int i = 4; i < both.length; i++) {
                both[i] &= one[i - 4];
            }
            out.write(both);
        });
        assertFinds(Kind.DOUBLED_UNIT, LineTransportContract.UNIT, "5 of them over each other", "a second unit");
    }

    @Test
    void aSecondReplyAfterTheFirstIsADoubledUnit() {
        byte[] second = peer.reply(ScriptedPeer.hex("11 03 00 6B 00 03 76 87"), "03 06 AAAA BBBB CCCC");
        for (int i = 0; i < 5; i++) {
            answersAndMore(second);
        }
        assertThat(transport.counts(LineTransportContract.UNIT).heard()).containsEntry(Heard.SECOND_REPLY, 5L);
        read(5, THREE, NOTHING);
        assertFinds(Kind.DOUBLED_UNIT, LineTransportContract.UNIT, "5 times on 15 requests", "a second unit");
    }

    @Test
    void requestsBetweenOursAreASecondMaster() {
        byte[] foreign = peer.shape.frame(new byte[2], 3, "04 0008 0001");
        byte[] answer = peer.shape.frame(new byte[2], 3, "04 02 000A");
        for (int i = 0; i < 3; i++) {
            answersAndMore(joined(foreign, answer));
        }
        assertThat(transport.counts(new UnitId(3)).heard(Heard.REQUEST)).isEqualTo(3);
        read(5, THREE, NOTHING);
        assertFinds(Kind.SECOND_MASTER, "3 requests that are not ours", "only one master may");
    }

    /** Its conversation with two units, in place of the reply, and before it. */
    @Test
    void requestsInPlaceOfRepliesAreASecondMaster() {
        read(3, THREE, (request, out, connection) -> out.write(peer.shape.frame(request, 3, "06 0001 0003")));
        read(
                3,
                THREE,
                (request, out, connection) -> write(
                        out,
                        peer.shape.frame(request, 9, "03 0000 0001"),
                        peer.shape.frame(request, 9, "03 02 1234"),
                        peer.reply(request, THREE_REPLY)));
        read(4, THREE, NOTHING);
        assertFinds(Kind.SECOND_MASTER, "requests that are not ours were heard", "only one master may");
        assertThat(transport.findings().get(0).seen()).endsWith("to unit 3, 9");
    }
}
