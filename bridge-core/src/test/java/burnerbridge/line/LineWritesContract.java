package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.line.WriteOutcome.Accepted;
import burnerbridge.line.WriteOutcome.NotSent;
import burnerbridge.line.WriteOutcome.Refused;
import burnerbridge.line.WriteOutcome.Unknown;
import burnerbridge.line.frame.WriteRequest;
import burnerbridge.model.Registers;
import burnerbridge.model.RunningClock;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import java.io.IOException;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What holds of writes on every transport, each with a scripted peer at its other end. */
abstract class LineWritesContract<P extends ScriptedPeer> {
    static final Duration REPLY_TIMEOUT = Duration.ofMillis(200);
    static final ReadRequest ONE = new ReadRequest(Guards.UNIT, RegisterTable.HOLDING_REGISTER, 8, 1);
    static final WriteTemplate REGISTER = Guards.register(0x2C);
    static final WriteTemplate REGISTERS = Guards.registers(1, 2);
    static final WriteTemplate PAUSED = Guards.register(70).on(new WriteTerms(false, Duration.ofMillis(400)));
    static final WriteTemplate ANY_UNIT = Guards.register(71).on(new WriteTerms(true, Duration.ZERO));
    static final Registers VALUE = Registers.of(900);
    private static final List<WriteTemplate> TEMPLATES = List.of(
            Guards.coil(0x10), REGISTER, Guards.coils(0x13, 10), REGISTERS, Guards.bits(4, 0x14), PAUSED, ANY_UNIT);

    @SuppressWarnings("NullAway.Init")
    P peer;

    @SuppressWarnings("NullAway.Init")
    FramedTransport transport;

    @SuppressWarnings("NullAway.Init")
    LineWrites writes;

    abstract P newPeer();

    abstract LineDefinition.Endpoint endpoint(P peer);

    /** Whether doubt is ended by opening the wire anew, rather than by draining it. */
    abstract boolean reopens();

    /** Whether a reply says which request it answers. */
    abstract boolean hasTransactions();

    static FramedTransport transport(LineDefinition.Endpoint endpoint) {
        return Lines.framed(
                new LineDefinition(new Name("tested"), endpoint, REPLY_TIMEOUT, Duration.ofSeconds(3)),
                new RunningClock(),
                TEMPLATES,
                Guards.ofUnit());
    }

    @BeforeEach
    void start() {
        peer = newPeer();
        transport = transport(endpoint(peer));
        writes = new FramedWrites(transport, TEMPLATES);
    }

    @AfterEach
    void end() {
        transport.close();
        peer.close();
    }

    /** A read, by which the line is connected. */
    void connect() {
        peer.answers("03 02 00 0A");
        assertThat(transport.read(ONE)).isInstanceOf(Answered.class);
        peer.requests.clear();
    }

    void assertReadAfterwards(int connections) {
        peer.answersFromThenOn("03 02 00 0B");
        assertThat(((Answered) transport.read(ONE)).data()).isEqualTo(Registers.of(11));
        assertThat(peer.connections).hasValue(connections);
    }

    void assertReadAfterDoubt() {
        assertReadAfterwards(reopens() ? 2 : 1);
    }

    /** What came without what its framing puts around. */
    byte[] pdu(byte[] request) {
        return hasTransactions()
                ? Arrays.copyOfRange(request, 7, request.length)
                : Arrays.copyOfRange(request, 1, request.length - 2);
    }

    private ScriptedPeer.Act says(int unit, String pdu) {
        return (request, out, connection) -> out.write(peer.shape.frame(request, unit, pdu));
    }

    private static Registers words(String words) {
        return Registers.of(
                Arrays.stream(words.split(" ")).mapToInt(Integer::decode).toArray());
    }

    @ParameterizedTest
    @CsvSource({
        "0, 1, 05 0010 FF00, 05 0010 FF00",
        "0, 0, 05 0010 0000, 05 0010 0000",
        "1, 900, 06 002C 0384, 06 002C 0384",
        "2, 1 0 1 1 0 0 1 1 1 0, 0F 0013 000A 02 CD01, 0F 0013 000A",
        "3, 0x000A 0x0102, 10 0001 0002 04 000A 0102, 10 0001 0002",
        "4, 0xFFFF, 16 0004 FFEB 0014, 16 0004 FFEB 0014",
        "4, 0x0010, 16 0004 FFEB 0010, 16 0004 FFEB 0010"
    })
    void eachFunctionIsSentAsTheProtocolHasItAndItsReplyTaken(int template, String data, String asked, String said) {
        connect();
        peer.answers(said);
        assertThat(writes.write(TEMPLATES.get(template), words(data))).isInstanceOf(Accepted.class);
        assertThat(peer.requests)
                .singleElement()
                .satisfies(request -> assertThat(pdu(request)).isEqualTo(ScriptedPeer.hex(asked)));
        assertReadAfterwards(1);
        assertThat(writes.connections()).isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource({"86 01, 1", "86 02, 2", "86 03, 3", "86 04, 4", "86 06, 6", "86 0B, 11", "86 FF, 255"})
    void anExceptionIsARefusalAndKeepsTheWire(String said, int code) {
        connect();
        peer.answers(said);
        assertThat(((Refused) writes.write(REGISTER, VALUE)).code()).isEqualTo(code);
        assertReadAfterwards(1);
        assertThat(transport.replies(Guards.UNIT)).isEqualTo(code == 11 ? 2 : 3);
    }

    @ParameterizedTest
    @CsvSource({
        "18, 06 002C 0384, unit must be 17 (was 18)",
        "17, 06 002C 0385, must be 06 00 2C 03 84 (was 06 00 2C 03 85)",
        "17, 06 002D 0384, must be 06 00 2C 03 84",
        "17, 06 012C 0384, must be 06 00 2C 03 84",
        "17, 03 02 0384, function 3 answered a request of function 6",
        "17, 10 002C 0001, function 16 answered",
        "17, 85 02, function 133 answered",
        "17, 86 00, an exception reply is two bytes",
        "18, 86 02, unit must be 17"
    })
    void aReplyThatIsNotThatToTheWriteLeavesItUnknownAndNoTrace(int unit, String said, String why) {
        connect();
        peer.then(says(unit, said));
        WriteOutcome outcome = writes.write(REGISTER, VALUE);
        assertThat(outcome).isInstanceOf(Unknown.class);
        assertThat(((Unknown) outcome).what()).contains(why);
        assertThat(peer.requests).hasSize(1);
        assertReadAfterDoubt();
    }

    @ParameterizedTest
    @CsvSource({"10 0001 0001", "10 0002 0002", "10 0001 0002 04 000A 0102", "10 0001"})
    void theReplyToSeveralRegistersHasTheirAddressAndCount(String said) {
        connect();
        peer.answers(said);
        assertThat(writes.write(REGISTERS, Registers.of(10, 0x102))).isInstanceOf(Unknown.class);
        assertReadAfterDoubt();
    }

    @Test
    void noReplyLeavesItUnknownAndItIsNotSentAgain() throws Exception {
        connect();
        peer.then((request, out, connection) -> {});
        assertThat(((Unknown) writes.write(REGISTER, VALUE)).what()).isEqualTo("no reply in time");
        assertReadAfterDoubt();
        assertThat(peer.requests.stream().filter(request -> pdu(request)[0] == 6))
                .hasSize(1);
    }

    @Test
    void aReplyThatIsCutOffLeavesItUnknown() {
        connect();
        peer.then((request, out, connection) -> out.write(peer.reply(request, "06 002C 0384"), 0, 6));
        assertThat(((Unknown) writes.write(REGISTER, VALUE)).what()).contains("bytes came in time");
        assertReadAfterDoubt();
    }

    @Test
    void nothingIsConnectedToWrite() {
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(NotSent.class);
        assertThat(transport.counts().connections()).isZero();
        assertThat(writes.connections()).isZero();
        assertThat(peer.requests).isEmpty();
    }

    @Test
    void onALineThatWasClosedNothingIsWritten() {
        connect();
        transport.close();
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(NotSent.class);
        assertThat(peer.requests).isEmpty();
    }

    @Test
    void aLateReplyToAWriteNeverAnswersTheNextRead() throws Exception {
        CountDownLatch timedOut = new CountDownLatch(1);
        CountDownLatch sentLate = new CountDownLatch(1);
        connect();
        peer.then((request, out, connection) -> {
            timedOut.await();
            try {
                out.write(peer.reply(request, "06 002C 0384"));
            } catch (IOException closedAlready) {
                // As good.
            }
            sentLate.countDown();
        });
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(Unknown.class);
        timedOut.countDown();
        assertThat(sentLate.await(10, TimeUnit.SECONDS)).isTrue();
        peer.answersFromThenOn("03 02 00 0B");
        Outcome next = transport.read(ONE);
        // What comes in its midst breaks it; it is never taken for its reply.
        next = next instanceof Outcome.Broken ? transport.read(ONE) : next;
        assertThat(((Answered) next).data()).isEqualTo(Registers.of(11));
        assertThat(transport.counts().heard(Heard.REQUEST)).isZero();
        assertThat(transport.counts().heard(Heard.OTHERS_REPLY)).isZero();
    }

    /** The second has no reply at all; its replies look the same as those to the first. */
    @Test
    void aLateReplyToAWriteNeverAnswersTheNextWriteOfTheSameTemplate() throws Exception {
        CountDownLatch never = new CountDownLatch(1);
        connect();
        peer.then((request, out, connection) -> {
            assertThat(never.await(300, TimeUnit.MILLISECONDS)).isFalse();
            try {
                out.write(peer.reply(request, "10 0001 0002"));
            } catch (IOException closedAlready) {
                // As good.
            }
        });
        assertThat(writes.write(REGISTERS, Registers.of(1, 2))).isInstanceOf(Unknown.class);
        connectAnew();
        peer.then((request, out, connection) -> {});
        WriteOutcome second = writes.write(REGISTERS, Registers.of(3, 4));
        while (second instanceof NotSent) {
            connectAnew();
            peer.then((request, out, connection) -> {});
            second = writes.write(REGISTERS, Registers.of(3, 4));
        }
        assertThat(second).isInstanceOf(Unknown.class);
    }

    /** Some reads until one is answered, whatever became of the wire. */
    private void connectAnew() {
        Outcome outcome;
        do {
            peer.answers("03 02 00 0A");
            outcome = transport.read(ONE);
        } while (!(outcome instanceof Answered));
    }

    @Test
    void aWriteWaitsForThePauseOfItsUnit() {
        connect();
        peer.answers("06 0046 0384");
        long now = new RunningClock().ticks();
        assertThat(writes.readyAt(PAUSED, now) - now).isGreaterThan(200_000_000);
        assertThat(writes.readyAt(REGISTER, now)).isEqualTo(now);
        assertThat(writes.write(PAUSED, VALUE)).isInstanceOf(Accepted.class);
        assertThat(new RunningClock().ticks() - now).isGreaterThan(200_000_000);
    }

    @Test
    void aGatewaysOwnUnitIsTakenOnlyWhereItIsSaidToReplySo() {
        connect();
        peer.then(says(255, "06 0047 0384"));
        assertThat(writes.write(ANY_UNIT, VALUE)).isInstanceOf(Accepted.class);
        peer.then(says(255, "06 002C 0384"));
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(Unknown.class);
    }

    @Test
    void whatBecameOfWritesIsCountedWithTheRequestsOfTheirUnit() {
        connect();
        peer.answers("06 002C 0384").answers("86 02").then(says(17, "06 002C 0000"));
        writes.write(REGISTER, VALUE);
        writes.write(REGISTER, VALUE);
        writes.write(REGISTER, VALUE);
        LineCounts counts = transport.counts(Guards.UNIT);
        assertThat(counts.answered()).isEqualTo(2);
        assertThat(counts.refused()).isEqualTo(1);
        assertThat(counts.broken()).isEqualTo(Map.of(Fault.OTHER_WRITE, 1L));
        assertThat(counts.heard()).isEmpty();
    }

    /** However often writes fail in ways of their own, the line that is read has nothing to look at. */
    @Test
    void wrongRepliesToWritesAreNoFindingOfTheLine() {
        peer.answersFromThenOn("03 02 00 0A");
        for (int i = 0; i < 12; i++) {
            assertThat(transport.read(ONE)).isInstanceOf(Answered.class);
            peer.then(says(17, "06 002C 0000"));
            assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(Unknown.class);
        }
        assertThat(transport.counts().broken(Fault.OTHER_WRITE)).isEqualTo(12);
        assertThat(transport.findings()).isEmpty();
    }

    /** Whatever made the request: the frame must be one of the templates. */
    @ParameterizedTest
    @CsvSource({
        "06 002D 0384", "06 01F4 0384", "06 002C 0384 00", "05 002C FF00", "10 002C 0001 02 0384", "16 002C FFFE 0001",
        "17 0001 0001 002C 0001 02 0384", "15 07 06 0004 0007 0001 0000", "03 002C 0001", "08 0000 0000", "06", "00"
    })
    void aHandMadeRequestToWriteDoesNotLeaveUnlessATemplateHasIt(String pdu) {
        connect();
        assertThatThrownBy(() -> transport.write(new WriteRequest(REGISTER, ScriptedPeer.hex(pdu))))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("nothing was sent");
        assertReadAfterwards(1);
        assertThat(peer.requests).hasSize(1);
    }

    /** Not even one of its templates: what reads asks again. */
    @ParameterizedTest
    @CsvSource({"06 002C 0384", "05 0010 FF00", "10 0001 0002 04 0000 0000", "06 002D 0384"})
    void noWriteLeavesAsARead(String pdu) {
        connect();
        assertThatThrownBy(() -> transport.transact(ONE, ScriptedPeer.hex(pdu)))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("only functions 1 to 4");
        assertReadAfterwards(1);
        assertThat(peer.requests).hasSize(1);
    }
}
