package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.line.Outcome.Refused;
import burnerbridge.line.Outcome.Silent;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What holds on every transport of RTU frames besides. */
abstract class RtuContract<P extends ScriptedPeer> extends LineTransportContract<P> {

    @Test
    void aRequestEndsWithItsChecksum() {
        peer.answers(THREE_REPLY);
        transport.read(THREE);
        // The checksum of this frame, 76 87, is a published example of RTU framing (from memory).
        assertThat(peer.requests.get(0)).isEqualTo(ScriptedPeer.hex("11 03 00 6B 00 03 76 87"));
    }

    @ParameterizedTest
    @CsvSource({
        "11 0306022B00000064 0000, CHECKSUM, checksum",
        "11 0306022B00010064 C8BA, CHECKSUM, checksum",
        "11 8302 0000, CHECKSUM, checksum",
        "11 03006B0003 7687, ECHO, the request itself",
        "FF FE FD FC FB FA F9 F8, FRAMING, no frame",
        "00, FRAMING, no frame",
        "11, LENGTH, only 1 of 11 bytes",
        "11 03, LENGTH, only 2 of 11 bytes",
        "03 06 022B00000064 C8BA, BEGINNING_LOST, the first byte of the reply",
        "06 022B00000064 C8BA, BEGINNING_LOST, the first 2 bytes of",
        "022B00000064 C8BA, BEGINNING_LOST, the first 3 bytes of",
        "FE 03 06 022B00000064 C8BA, BEGINNING_LOST, the first byte of the reply",
        "11 0306022B00 11 0306022B00000064 0000, OVERLAID, checksum",
        "11 05 00AC FF00 4E8B 11 05 00AC FF00 4E8B, UNIT, frames of others"
    })
    void bytesThatAreNotTheReplyAreBrokenAndLeaveNoTrace(String bytes, Fault fault, String why) {
        peer.then((request, out, connection) -> out.write(ScriptedPeer.hex(bytes)));
        assertBroken(transport.read(THREE), fault, why);
        assertAnswersAfterDoubt();
    }

    @Test
    void anEchoBeforeTheReplyIsToldAsOne() {
        peer.then((request, out, connection) -> {
            out.write(request);
            out.write(peer.reply(request, THREE_REPLY));
        });
        assertBroken(transport.read(THREE), Fault.ECHO, "the line echoes");
        assertAnswersAfterDoubt();
    }

    @Test
    void aReplyBehindStrayBytesIsToldAsOneAndNotUsed() {
        peer.then((request, out, connection) -> {
            out.write(ScriptedPeer.hex("00 FF"));
            out.write(peer.reply(request, THREE_REPLY));
        });
        assertBroken(transport.read(THREE), Fault.STRAY_BYTES, "2 stray bytes");
        assertAnswersAfterDoubt();
    }

    /** A device server may hand a late reply to whoever is connected when it comes. */
    @Test
    void aReplyAsLateAsTheNextQuestionDoesNotAnswerIt() {
        peer.then((request, out, connection) -> {});
        assertThat(transport.read(OTHER_THREE)).isInstanceOf(Silent.class);
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, "03 06 AAAA AAAA AAAA"));
            out.write(peer.reply(request, "03 06 000100020003"));
        });
        peer.answersFromThenOn("03 06 000100020003");
        assertThat(((Answered) transport.read(THREE)).data()).isEqualTo(Registers.of(1, 2, 3));
    }

    /** Asked once more, a unit that was only late has answered one time more than was listened for. */
    @Test
    void whatAskingOnceMoreLeftOverDoesNotAnswerTheQuestionAfterIt() {
        CountDownLatch never = new CountDownLatch(1);
        peer.then((request, out, connection) -> {});
        assertThat(transport.read(OTHER_THREE)).isInstanceOf(Silent.class);
        peer.then((request, out, connection) -> out.write(peer.reply(request, "03 06 AAAA AAAA AAAA")));
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, "03 06 000100020003"));
            assertThat(never.await(50, TimeUnit.MILLISECONDS)).isFalse();
            out.write(peer.reply(request, "03 06 000100020003"));
        });
        peer.answersFromThenOn("03 06 000400050006");
        assertThat(((Answered) transport.read(THREE)).data()).isEqualTo(Registers.of(1, 2, 3));
        assertThat(((Answered) transport.read(OTHER_THREE)).data()).isEqualTo(Registers.of(4, 5, 6));
    }

    /** It is a reading of those registers, though an earlier one. */
    @Test
    void aLateReplyToTheVerySameQuestionIsTakenWithTheTimeOfThatQuestion() {
        peer.then((request, out, connection) -> {});
        Stamp first = ((Silent) transport.read(THREE)).askedAt();
        peer.answersFromThenOn(THREE_REPLY);
        Answered late = (Answered) transport.read(THREE);
        assertThat(late.data()).isEqualTo(Registers.of(555, 0, 100));
        assertThat(late.askedAt()).isEqualTo(first);
        assertThat(peer.requests).hasSize(2);
    }

    /** A gateway that gives up later than we do says so when the next request is already under way. */
    @Test
    void aLateRefusalDoesNotRefuseTheNextQuestion() {
        peer.then((request, out, connection) -> {});
        assertThat(transport.read(THREE)).isInstanceOf(Silent.class);
        peer.then((request, out, connection) -> out.write(peer.reply(request, "83 0B")));
        peer.answersFromThenOn("03 02 00 0A");
        assertThat(((Answered) transport.read(ONE)).data()).isEqualTo(Registers.of(10));
    }

    @Test
    void onceAReplyIsKnownToBeItsOwnOneQuestionIsEnough() {
        peer.then((request, out, connection) -> {});
        assertThat(transport.read(OTHER_THREE)).isInstanceOf(Silent.class);
        peer.answersFromThenOn("83 02");
        assertThat(transport.read(THREE)).isInstanceOf(Refused.class);
        assertThat(peer.requests).hasSize(3);
        assertThat(transport.read(THREE)).isInstanceOf(Refused.class);
        assertThat(peer.requests).hasSize(4);
    }

    @Test
    void theNextRequestIsNotHeardBeforeTheLineWasSilent() throws Exception {
        AtomicLong spoke = new AtomicLong();
        CompletableFuture<Long> heard = new CompletableFuture<>();
        peer.then((request, out, connection) -> {
            spoke.set(System.nanoTime());
            out.write(peer.reply(request, THREE_REPLY));
        });
        peer.then((request, out, connection) -> {
            heard.complete(System.nanoTime());
            out.write(peer.reply(request, THREE_REPLY));
        });
        transport.read(THREE);
        transport.read(THREE);
        // 3.5 characters of 10 or 11 bits at 9600 baud: 3.646 or 4.010 ms.
        assertThat(heard.get(10, TimeUnit.SECONDS) - spoke.get()).isGreaterThan(3_640_000);
    }
}
