package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.line.Outcome.Broken;
import burnerbridge.line.Outcome.Silent;
import burnerbridge.model.Registers;
import burnerbridge.model.RunningClock;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What holds for a request besides what it asks for, over Modbus TCP and RTU. */
class ReadTermsIT {
    private static final Duration REPLY_TIMEOUT = Duration.ofMillis(200);
    private static final String TEN = "03 02 00 0A";

    private @Nullable ScriptedTcpPeer peer;
    private @Nullable FramedTransport transport;

    private ScriptedTcpPeer start(ScriptedPeer.Shape shape) {
        ScriptedTcpPeer started = new ScriptedTcpPeer(shape);
        peer = started;
        LineDefinition.Endpoint endpoint = shape == ScriptedPeer.Shape.TCP
                ? new LineDefinition.Tcp("127.0.0.1", started.port())
                : new LineDefinition.RtuOverTcp("127.0.0.1", started.port(), 115_200);
        transport = Lines.framed(
                new LineDefinition(new Name("tested"), endpoint, REPLY_TIMEOUT, Duration.ofSeconds(3)),
                new RunningClock());
        return started;
    }

    @AfterEach
    void end() {
        if (transport != null) {
            transport.close();
        }
        if (peer != null) {
            peer.close();
        }
    }

    private Outcome read(ReadTerms terms) {
        return read(ScriptedPeer.UNIT, terms);
    }

    private Outcome read(int unit, ReadTerms terms) {
        return java.util.Objects.requireNonNull(transport)
                .read(new ReadRequest(new UnitId(unit), RegisterTable.HOLDING_REGISTER, 8, 1, terms));
    }

    private static ReadTerms anyUnit() {
        return new ReadTerms(true, false, Duration.ZERO);
    }

    private static ReadTerms once() {
        return new ReadTerms(false, true, Duration.ZERO);
    }

    private static ReadTerms pause(Duration pause) {
        return new ReadTerms(false, false, pause);
    }

    private static void assertTen(Outcome outcome) {
        assertThat(outcome).isInstanceOf(Answered.class);
        assertThat(((Answered) outcome).data()).isEqualTo(Registers.of(10));
    }

    @ParameterizedTest
    @EnumSource
    void aGatewaysOwnUnitIsTakenOnlyWhereItIsSaidToReplySo(ScriptedPeer.Shape shape) {
        ScriptedTcpPeer gateway = start(shape);
        ScriptedPeer.Act withItsOwn = (request, out, connection) -> out.write(shape.frame(request, 255, TEN));
        gateway.then(withItsOwn);
        assertThat(((Broken) read(ReadTerms.USUAL)).fault()).isEqualTo(Fault.UNIT);
        for (int i = 0; i < 4; i++) {
            gateway.then(withItsOwn);
        }
        assertTen(read(anyUnit()));
        assertTen(read(anyUnit()));
    }

    @ParameterizedTest
    @EnumSource
    void whateverItsUnitAReplyMustAnswerTheRequest(ScriptedPeer.Shape shape) {
        ScriptedTcpPeer gateway = start(shape);
        gateway.then((request, out, connection) -> out.write(shape.frame(request, 255, "04 02 00 0A")));
        assertThat(((Broken) read(anyUnit())).fault()).isEqualTo(Fault.FUNCTION);
        gateway.then((request, out, connection) -> out.write(shape.frame(request, 255, "03 04 00 0A 00 0B")));
        assertThat(read(anyUnit())).isInstanceOf(Broken.class);
        gateway.then((request, out, connection) -> {
            byte[] frame = shape.frame(request, 255, TEN);
            frame[shape == ScriptedPeer.Shape.TCP ? 1 : frame.length - 1] ^= 1;
            out.write(frame);
        });
        assertThat(read(anyUnit())).isInstanceOf(Broken.class);
    }

    @ParameterizedTest
    @EnumSource
    void whatIsAskedOnceIsNotAskedAgainWhereTheConnectionEndsInsteadOfAReply(ScriptedPeer.Shape shape) {
        ScriptedTcpPeer ending = start(shape);
        ending.answers(TEN).then((request, out, connection) -> connection.close());
        ending.answersFromThenOn(TEN);
        assertTen(read(ReadTerms.USUAL));
        assertTen(read(ReadTerms.USUAL));
        assertThat(ending.requests).hasSize(3);
        ending.then((request, out, connection) -> connection.close());
        assertThat(((Broken) read(once())).fault()).isEqualTo(Fault.ENDED);
        assertThat(ending.requests).hasSize(4);
    }

    @ParameterizedTest
    @EnumSource
    void aConnectionThatEndedWhileIdleIsFoundOutBeforeItIsAskedOnce(ScriptedPeer.Shape shape) throws Exception {
        ScriptedTcpPeer idle = start(shape);
        CountDownLatch ended = new CountDownLatch(1);
        idle.then((request, out, connection) -> {
            out.write(idle.reply(request, TEN));
            connection.close();
            ended.countDown();
        });
        idle.answersFromThenOn(TEN);
        assertTen(read(once()));
        assertThat(ended.await(10, TimeUnit.SECONDS)).isTrue();
        assertTen(read(once()));
        assertThat(idle.requests).hasSize(2);
        assertThat(idle.connections).hasValue(2);
    }

    @Test
    void whatIsAskedOnceWaitsUntilNoLateReplyCouldPassForItsOwn() {
        ScriptedTcpPeer late = start(ScriptedPeer.Shape.RTU);
        late.then((request, out, connection) -> {});
        long asked = System.nanoTime();
        assertThat(read(ReadTerms.USUAL)).isInstanceOf(Silent.class);
        late.answersFromThenOn(TEN);
        assertTen(read(once()));
        assertThat(late.requests).hasSize(2);
        assertThat(System.nanoTime() - asked)
                .isGreaterThanOrEqualTo(REPLY_TIMEOUT.multipliedBy(6).toNanos());
    }

    @Test
    void closingEndsThatWait() throws Exception {
        ScriptedTcpPeer late = start(ScriptedPeer.Shape.RTU);
        assertTen(readAfter(late));
        late.answers(TEN);
        ReadTerms patient = pause(Duration.ofSeconds(10));
        Thread waiting = new Thread(() -> read(patient), "waits for its turn");
        waiting.start();
        TimeUnit.MILLISECONDS.sleep(50);
        java.util.Objects.requireNonNull(transport).close();
        waiting.join(2_000);
        assertThat(waiting.isAlive()).isFalse();
        assertThat(late.requests).hasSize(1);
    }

    private Outcome readAfter(ScriptedTcpPeer answering) {
        answering.answers(TEN);
        return read(ReadTerms.USUAL);
    }

    @ParameterizedTest
    @EnumSource
    void aUnitIsLeftAloneForItsPauseAndOthersAreNot(ScriptedPeer.Shape shape) {
        Duration pause = Duration.ofMillis(400);
        ScriptedTcpPeer slow = start(shape);
        List<Long> heard = new CopyOnWriteArrayList<>();
        for (int i = 0; i < 3; i++) {
            slow.then((request, out, connection) -> {
                heard.add(System.nanoTime());
                int unit = request[shape == ScriptedPeer.Shape.TCP ? 6 : 0];
                out.write(shape.frame(request, unit, TEN));
            });
        }
        assertTen(read(1, pause(pause)));
        assertTen(read(2, pause(pause)));
        assertTen(read(1, pause(pause)));
        assertThat(heard.get(1) - heard.get(0)).isLessThan(pause.toNanos());
        assertThat(heard.get(2) - heard.get(0)).isGreaterThanOrEqualTo(pause.toNanos());
    }

    /** Of a question that was asked twice since an earlier reply might be late, the second reply comes late itself. */
    @Test
    void theReplyToARepetitionNeverAnswersTheNextQuestion() {
        ScriptedTcpPeer late = start(ScriptedPeer.Shape.RTU);
        late.then((request, out, connection) -> {});
        ReadRequest before = new ReadRequest(new UnitId(ScriptedPeer.UNIT), RegisterTable.HOLDING_REGISTER, 7, 1);
        assertThat(java.util.Objects.requireNonNull(transport).read(before)).isInstanceOf(Silent.class);
        // In the order of the requests: the late reply, that of the first question, and behind it the second's.
        late.answers("03 02 AA AA");
        late.then((request, out, connection) -> {
            out.write(late.reply(request, TEN));
            TimeUnit.MILLISECONDS.sleep(50);
            out.write(late.reply(request, TEN));
        });
        assertTen(read(ReadTerms.USUAL));
        late.answersFromThenOn("03 02 00 0B");
        Outcome next = java.util.Objects.requireNonNull(transport)
                .read(new ReadRequest(new UnitId(ScriptedPeer.UNIT), RegisterTable.HOLDING_REGISTER, 9, 1));
        assertThat(((Answered) next).data()).isEqualTo(Registers.of(11));
    }
}
