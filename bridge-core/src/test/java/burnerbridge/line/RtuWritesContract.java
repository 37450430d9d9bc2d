package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.WriteOutcome.Accepted;
import burnerbridge.line.WriteOutcome.Unknown;
import burnerbridge.model.Registers;
import burnerbridge.model.RunningClock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What holds of writes on every transport of RTU frames besides. */
abstract class RtuWritesContract<P extends ScriptedPeer> extends LineWritesContract<P> {

    @Override
    boolean hasTransactions() {
        return false;
    }

    @Test
    void aWriteEndsWithItsChecksum() {
        connect();
        peer.answers("06 002C 0384");
        writes.write(REGISTER, VALUE);
        // The checksum is that of the message library.
        assertThat(peer.requests.get(0)).isEqualTo(ScriptedPeer.Shape.RTU.frame(new byte[0], 17, "06 002C 0384"));
    }

    @ParameterizedTest
    @CsvSource({
        "11 06 002C 0384 0000, checksum",
        "06 002C 0384 4AC2, missing",
        "FF FE FD FC FB FA F9 F8, no frame",
        "11, bytes came in time",
        "00, no frame"
    })
    void bytesThatAreNotTheReplyLeaveItUnknownAndNoTrace(String bytes, String why) {
        connect();
        byte[] said = bytes.startsWith("06")
                ? java.util.Arrays.copyOfRange(peer.reply(new byte[2], "06 002C 0384"), 1, 8)
                : ScriptedPeer.hex(bytes);
        peer.then((request, out, connection) -> out.write(said));
        assertThat(((Unknown) writes.write(REGISTER, VALUE)).what()).contains(why);
        assertReadAfterDoubt();
    }

    /** Of several registers the request is longer than its reply, so that an echo shows. */
    @Test
    void theEchoOfALongerWriteIsNoReply() {
        connect();
        peer.then((request, out, connection) -> out.write(request));
        assertThat(((Unknown) writes.write(REGISTERS, Registers.of(1, 2))).what())
                .contains("the line echoes");
        assertReadAfterDoubt();
    }

    /** RTU replies do not say what they answer: until no reply to the first is thought possible, the second waits. */
    @Test
    void afterAWriteWithoutAReplyTheNextOfItsFunctionWaitsAndOthersDoNot() {
        connect();
        peer.then((request, out, connection) -> {});
        long now = new RunningClock().ticks();
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(Unknown.class);
        long later = new RunningClock().ticks();
        assertThat(writes.readyAt(REGISTER, later) - now)
                .isGreaterThan(REPLY_TIMEOUT.multipliedBy(6).toNanos());
        assertThat(writes.readyAt(REGISTERS, later)).isEqualTo(later);
        assertThat(transport.readyAt(ONE, later)).isEqualTo(later);
    }

    /** Since a unit answers in order, what answers the read after it ends the doubt. */
    @Test
    void aReadThatIsAnsweredAfterwardsEndsThatWait() {
        connect();
        peer.then((request, out, connection) -> {});
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(Unknown.class);
        assertReadAfterDoubt();
        long now = new RunningClock().ticks();
        assertThat(writes.readyAt(REGISTER, now)).isEqualTo(now);
        peer.answers("06 002C 0384");
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(Accepted.class);
    }
}
