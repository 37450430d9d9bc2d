package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.ReadRequest;
import burnerbridge.model.Reason;
import burnerbridge.poll.agenda.Schedule;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.table.ControllerLink.State;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** One read that is answered in its own way, while the others of its controller are answered well. */
class StubbornReadsTest {
    private static final Duration MINUTE = Duration.ofMinutes(1);

    private final Told told = new Told();

    @AfterEach
    void deaf() {
        told.close();
    }

    private static PollRig three() {
        return new PollRig(Points.controller(
                0, "boiler-1", 1, Points.uint16("a", 10), Points.uint16("b", 20), Points.uint16("c", 30)));
    }

    private static void refuse(PollRig rig, int code, IntPredicate which) {
        rig.transport.answer = r -> which.test(r.first()) ? rig.refused(r, code) : rig.answered(r);
    }

    private static long asks(PollRig rig, int first) {
        return rig.askedFirsts().stream().filter(f -> f == first).count();
    }

    @ParameterizedTest
    @ValueSource(ints = {10, 20, 30})
    void oneReadThatIsRefusedAsByAnUnknownFunctionHidesNoOther(int refused) {
        PollRig rig = three();
        refuse(rig, 1, first -> first == refused);
        rig.runFor(MINUTE);
        for (int point = 0; point < 3; point++) {
            boolean isIt = refused == 10 * (point + 1);
            assertThat(rig.reading(point).reason()).isEqualTo(isIt ? Reason.REFUSED : Reason.NONE);
        }
        assertThat(told.warnings())
                .singleElement()
                .asString()
                .contains("boiler-1." + "abc".charAt(refused / 10 - 1))
                .endsWith("is refused with exception 1, illegal function");
    }

    /** The function comes back, but not for the read that was first to find it absent. */
    @ParameterizedTest
    @ValueSource(ints = {10, 20, 30})
    void eachReadHasItsTurnInFindingOutWhetherAFunctionIsStillAbsent(int refused) {
        PollRig rig = three();
        refuse(rig, 1, first -> true);
        rig.runFor(MINUTE);
        assertThat(told.warnings()).singleElement().asString().contains("does not know function 3");
        refuse(rig, 1, first -> first == refused);
        rig.runFor(Duration.ofSeconds(8));
        assertThat(IntStream.range(0, 3).filter(p -> rig.reading(p).isGood())).hasSize(2);
    }

    @Test
    void aReadThatIsNotAnsweredKeepsNoRefusalByItsFunctionFromTheLog() {
        PollRig rig = three();
        rig.transport.answer = r -> r.first() == 30 ? rig.silent(r) : rig.refused(r, 1);
        rig.runFor(MINUTE);
        assertThat(told.warnings())
                .filteredOn(w -> w.endsWith("is refused with exception 1, illegal function"))
                .hasSize(2);
    }

    @ParameterizedTest
    @CsvSource({"5, acknowledge", "6, server device busy"})
    void aReadThatIsAlwaysBusyIsLeftAloneForPausesThatGrow(int code, String meaning) {
        PollRig rig = three();
        refuse(rig, code, first -> first == 20);
        rig.runFor(MINUTE);
        // After 0, 1, 3, 7, 15, 25, 35, 45, 55 s.
        assertThat(asks(rig, 20)).isBetween(8L, 10L);
        assertThat(asks(rig, 10)).isBetween(29L, 31L);
        assertThat(asks(rig, 30)).isBetween(29L, 31L);
        assertThat(told.warnings())
                .containsExactly("line annex: boiler-1.b at holding-register 21 (wire 20): exception " + code + ", "
                        + meaning + ", to every try for 15 s");
        refuse(rig, code, first -> false);
        rig.runFor(MINUTE);
        assertThat(rig.reading(1).isGood()).isTrue();
        assertThat(told.all())
                .containsOnlyOnce("line annex: boiler-1.b at holding-register 21 (wire 20): is no longer answered with"
                        + " busy");
    }

    @Test
    void aReadThatIsWantedEachHourAndIsBusyIsNotAskedEverySecond() {
        PollRig rig = new PollRig(Points.controller(
                0, "boiler-1", 1, Points.uint16("a", 10), Points.every("b", 20, Duration.ofHours(1))));
        refuse(rig, 6, first -> first == 20);
        rig.runFor(MINUTE.multipliedBy(10));
        assertThat(asks(rig, 20)).isBetween(50L, 70L);
    }

    /** Of many reads of a busy controller not each is asked before it is left alone. */
    @Test
    void aBusyControllerWithManyReadsIsLeftAloneAsAWhole() {
        PollRig rig = new PollRig(Points.controller(
                0,
                "boiler-1",
                1,
                IntStream.range(0, 100)
                        .mapToObj(i -> Points.uint16("p" + i, 2 * i))
                        .toArray(PointDefinition[]::new)));
        rig.runFor(Duration.ofSeconds(1));
        rig.transport.asked.clear();
        refuse(rig, 6, first -> true);
        rig.runFor(MINUTE);
        assertThat(rig.transport.asked).hasSizeBetween(12, 18);
        assertThat(told.warnings()).singleElement().asString().contains("controller boiler-1: has been busy");
    }

    @ParameterizedTest
    @CsvSource({"10, gateway path unavailable", "11, gateway target device failed to respond"})
    void aReadThatAloneIsLostBehindItsGatewayIsToldOnceAndSoIsItsEnd(int code, String meaning) {
        PollRig rig = three();
        refuse(rig, code, first -> first == 20);
        rig.runFor(MINUTE);
        assertThat(rig.table.link(rig.points.get(0).controller()).state()).isEqualTo(State.UP);
        assertThat(told.warnings())
                .containsExactly("line annex: boiler-1.b at holding-register 21 (wire 20): exception " + code + ", "
                        + meaning + ", to 3 tries in a row");
        refuse(rig, code, first -> false);
        rig.runFor(MINUTE);
        assertThat(told.all())
                .containsOnlyOnce("line annex: boiler-1.b at holding-register 21 (wire 20): is answered again");
    }

    private static PollRig latched(PointDefinition... others) {
        PointDefinition[] all = new PointDefinition[others.length + 1];
        all[0] = Points.together("latch", 9, Consistency.ONCE);
        System.arraycopy(others, 0, all, 1, others.length);
        return new PollRig(Points.controller(0, "boiler-1", 1, all));
    }

    /** As on a line of RTU frames: what is read once waits until five time-outs after the last request in its way. */
    private static Map<Integer, Long> remembering(PollRig rig, IntPredicate inTheWay) {
        Map<Integer, Long> until = new HashMap<>();
        rig.transport.ready = (request, now) ->
                request.terms().once() ? until.values().stream().reduce(now, Schedule::later) : now;
        var answer = rig.transport.answer;
        rig.transport.answer = request -> {
            if (inTheWay.test(request.first())) {
                until.put(
                        request.first(),
                        rig.clock.ticks() + Duration.ofSeconds(5).toNanos());
            }
            return answer.apply(request);
        };
        return until;
    }

    @Test
    void whatIsReadOnceIsReadThoughAReadNextToItIsNeverAnswered() {
        PollRig rig = latched(Points.uint16("deaf", 20), Points.uint16("starts", 30));
        rig.transport.answer = r -> r.first() == 20 ? rig.silent(r) : rig.answered(r);
        remembering(rig, first -> first == 20);
        rig.runFor(Duration.ofSeconds(4));
        rig.transport.asked.clear();
        rig.runFor(MINUTE.multipliedBy(2));
        // Wanted every 2 s; after 4 s the deaf one is held back, so that its reply is out of the way 5 s later.
        assertThat(asks(rig, 9)).isGreaterThanOrEqualTo(12);
        assertThat(asks(rig, 20)).isBetween(4L, 10L);
        assertThat(asks(rig, 30)).isBetween(59L, 61L);
    }

    /** A controller that always answers too late for the first request of each question, so that one is left over. */
    @Test
    void whatIsReadOnceIsReadThoughWhatIsAnsweredLeavesLateRepliesInItsWay() {
        PollRig rig = latched(Points.uint16("late", 20), Points.uint16("later", 30));
        remembering(rig, first -> first != 9);
        rig.runFor(Duration.ofSeconds(4));
        rig.transport.asked.clear();
        rig.runFor(MINUTE.multipliedBy(2));
        assertThat(asks(rig, 9)).isBetween(5L, 9L);
        assertThat(asks(rig, 20)).isGreaterThanOrEqualTo(30);
        assertThat(asks(rig, 30)).isGreaterThanOrEqualTo(30);
    }

    /** It is wanted much more often than the other, and first. */
    @Test
    void aControllerIsNotLostForOneReadThatItNeverAnswers() {
        PollRig rig = new PollRig(Points.controller(
                0, "boiler-1", 1, Points.every("deaf", 20, Duration.ofMillis(200)), Points.uint16("b", 30)));
        rig.transport.answer = r -> r.first() == 20 ? rig.silent(r) : rig.answered(r);
        rig.runFor(MINUTE.multipliedBy(5));
        assertThat(told.warnings())
                .containsExactly(
                        "line annex: boiler-1.deaf at holding-register 21 (wire 20): no reply to 3 tries in a row");
        assertThat(asks(rig, 30)).isBetween(149L, 151L);
    }

    /** Its replies may carry any unit, so that late ones to other units could be taken for them. */
    @Test
    void aControllerThatRepliesAsAnyUnitIsReadThoughAReadOfAnotherIsNotAnswered() {
        ControllerDefinition gateway = Points.controller(0, "boiler-1", 1, Points.uint16("a", 10));
        PollRig rig = new PollRig(
                new ControllerDefinition(
                        0, gateway.name(), gateway.line(), gateway.unit(), gateway.type(), 1000, true, 0),
                Points.controller(
                        1, "boiler-2", 2, Points.every("deaf", 20, Duration.ofMillis(500)), Points.uint16("b", 30)));
        long[] until = {rig.clock.ticks()};
        // Three out of four, so that it is never put off for long.
        rig.transport.answer = r -> {
            if (r.first() != 20 || asks(rig, 20) % 4 == 0) {
                return rig.answered(r);
            }
            until[0] = rig.clock.ticks() + Duration.ofSeconds(5).toNanos();
            return rig.silent(r);
        };
        rig.transport.ready = (r, now) -> r.terms().anyReplyUnit() ? Schedule.later(until[0], now) : now;
        rig.runFor(MINUTE.multipliedBy(5));
        assertThat(asks(rig, 10)).isGreaterThanOrEqualTo(30);
        assertThat(asks(rig, 20)).isGreaterThanOrEqualTo(30);
        assertThat(asks(rig, 30)).isBetween(145L, 151L);
    }

    @Test
    void aStepOfALineWithThousandsOfReadsLooksAtFewOfThem() {
        int reads = 5_000;
        PollRig rig = new PollRig(Points.controller(
                0,
                "boiler-1",
                1,
                IntStream.range(0, reads)
                        .mapToObj(i -> Points.every("p" + i, 2 * i, MINUTE))
                        .toArray(PointDefinition[]::new)));
        long[] looks = {0};
        rig.transport.ready = (ReadRequest request, Long now) -> {
            looks[0]++;
            return now;
        };
        rig.runFor(MINUTE.multipliedBy(2));
        assertThat(rig.transport.asked).hasSizeBetween(2 * reads, 3 * reads);
        assertThat(looks[0]).isLessThan(3L * rig.transport.asked.size());
    }
}
