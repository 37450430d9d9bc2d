package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class DoubtsTest {
    private static final Duration MEMORY = Duration.ofSeconds(2);
    private static final ReadRequest TWO = request(3, RegisterTable.HOLDING_REGISTER, 2);
    private static final ReadRequest OTHER_TWO = new ReadRequest(new UnitId(3), RegisterTable.HOLDING_REGISTER, 99, 2);

    private final HandClock clock = new HandClock();
    private final Doubts doubts = new Doubts(MEMORY);
    private Duration wireTime = Duration.ZERO;

    private static ReadRequest request(int unit, RegisterTable table, int count) {
        return new ReadRequest(new UnitId(unit), table, 10, count);
    }

    private long begin(ReadRequest request) {
        long left = clearIn(request);
        doubts.begin();
        return left;
    }

    private Optional<Outcome> believed(ReadRequest request, Outcome outcome) {
        doubts.asked(request, clock.now(), wireTime);
        return doubts.believed(request, outcome);
    }

    private boolean ends(ReadRequest request, Outcome outcome) {
        return believed(request, outcome).isPresent();
    }

    private Outcome answered() {
        return new Outcome.Answered(Registers.of(1, 2), clock.now());
    }

    private Outcome refused() {
        return new Outcome.Refused(6, clock.now());
    }

    private Outcome broken(Fault fault) {
        return new Outcome.Broken(fault, "", clock.now());
    }

    private void silent(ReadRequest request) {
        begin(request);
        assertThat(ends(request, new Outcome.Silent(clock.now()))).isTrue();
    }

    @Test
    void withNothingOpenAReplyEndsTheQuestion() {
        assertThat(begin(TWO)).isZero();
        assertThat(ends(TWO, answered())).isTrue();
        assertThat(begin(TWO)).isZero();
        assertThat(ends(TWO, refused())).isTrue();
    }

    @Test
    void afterEveryUnansweredRequestTheNextIsAskedOnceMore() {
        silent(TWO);
        silent(TWO);
        assertThat(begin(OTHER_TWO)).isZero();
        assertThat(ends(OTHER_TWO, answered())).isFalse();
        assertThat(ends(OTHER_TWO, answered())).isFalse();
        assertThat(ends(OTHER_TWO, answered())).isTrue();
    }

    @Test
    void aReplyThatTheUnansweredOneCannotHaveBroughtSettlesIt() {
        for (ReadRequest other : new ReadRequest[] {
            request(3, RegisterTable.HOLDING_REGISTER, 3), request(3, RegisterTable.INPUT_REGISTER, 2)
        }) {
            silent(TWO);
            begin(other);
            assertThat(ends(other, answered())).isTrue();
            begin(TWO);
            assertThat(ends(TWO, answered())).isTrue();
        }
    }

    @Test
    void aReplyOfAnotherUnitSettlesNothing() {
        ReadRequest other = request(4, RegisterTable.HOLDING_REGISTER, 2);
        silent(TWO);
        begin(other);
        assertThat(ends(other, answered())).isTrue();
        begin(OTHER_TWO);
        assertThat(ends(OTHER_TWO, answered())).isFalse();
    }

    @Test
    void aRefusalMayBeThatOfARequestOfAnyLength() {
        ReadRequest longer = request(3, RegisterTable.HOLDING_REGISTER, 3);
        silent(TWO);
        begin(longer);
        assertThat(ends(longer, refused())).isFalse();
        assertThat(ends(longer, refused())).isTrue();
    }

    /** If the unanswered one was only late, one of the two replies to the question is still to come. */
    @Test
    void whatAskingOnceMoreMayHaveLeftOverIsWaitedFor() {
        silent(OTHER_TWO);
        begin(TWO);
        ends(TWO, answered());
        clock.forward(Duration.ofMillis(100));
        assertThat(ends(TWO, answered())).isTrue();
        clock.forward(Duration.ofMillis(500));
        assertThat(begin(request(3, RegisterTable.HOLDING_REGISTER, 3))).isZero();
        assertThat(begin(OTHER_TWO)).isEqualTo(1500);
        // Where the wait is cut short, the reply is still not believed.
        assertThat(ends(OTHER_TWO, answered())).isFalse();
        clock.forward(MEMORY);
        assertThat(ends(OTHER_TWO, answered())).isTrue();
        assertThat(begin(OTHER_TWO)).isZero();
    }

    @Test
    void aReplyInTattersDidCome() {
        begin(TWO);
        assertThat(ends(TWO, broken(Fault.CHECKSUM))).isTrue();
        begin(TWO);
        assertThat(ends(TWO, broken(Fault.STRAY_BYTES))).isTrue();
        begin(TWO);
        assertThat(ends(TWO, answered())).isTrue();
    }

    @Test
    void whatCameInsteadOfAReplyLeavesItOpen() {
        begin(TWO);
        assertThat(ends(TWO, broken(Fault.UNIT))).isTrue();
        begin(OTHER_TWO);
        assertThat(ends(OTHER_TWO, answered())).isFalse();
    }

    @Test
    void aRequestThatNeverLeftIsNoDoubt() {
        begin(TWO);
        assertThat(doubts.believed(TWO, new Outcome.NotConnected("no port"))).isPresent();
        begin(TWO);
        assertThat(ends(TWO, answered())).isTrue();
    }

    @Test
    void aReplyIsNotThoughtPossibleForEver() {
        silent(TWO);
        clock.forward(MEMORY);
        begin(TWO);
        assertThat(ends(TWO, answered())).isTrue();
    }

    @Test
    void withoutMemoryNothingIsInDoubt() {
        Doubts none = new Doubts(Duration.ZERO);
        for (int i = 0; i < 3; i++) {
            assertThat(none.clearAt(TWO, clock.ticks())).isEqualTo(clock.ticks());
            none.begin();
            none.asked(TWO, clock.now(), Duration.ofSeconds(1));
            assertThat(none.believed(TWO, new Outcome.Silent(clock.now()))).isPresent();
        }
        none.begin();
        none.asked(TWO, clock.now(), Duration.ofSeconds(1));
        assertThat(none.believed(TWO, answered())).isPresent();
    }

    private static ReadRequest onTerms(int unit, boolean anyReplyUnit, boolean once) {
        return new ReadRequest(
                new UnitId(unit),
                RegisterTable.HOLDING_REGISTER,
                0,
                1,
                new ReadTerms(anyReplyUnit, once, Duration.ZERO));
    }

    private long clearIn(ReadRequest request) {
        return Duration.ofNanos(doubts.clearAt(request, clock.ticks()) - clock.ticks())
                .toMillis();
    }

    @Test
    void whatIsAskedOnceWaitsForEveryReplyOfItsUnitThatMayStillCome() {
        silent(TWO);
        assertThat(clearIn(onTerms(3, false, false))).isZero();
        assertThat(clearIn(onTerms(3, false, true))).isEqualTo(2_000);
        assertThat(clearIn(onTerms(4, false, true))).isZero();
        clock.forward(Duration.ofMillis(500));
        assertThat(clearIn(onTerms(3, false, true))).isEqualTo(1_500);
        clock.forward(Duration.ofMillis(1_500));
        assertThat(clearIn(onTerms(3, false, true))).isZero();
    }

    @Test
    void whatIsAskedOnceIsNeverAskedAgain() {
        ReadRequest once = onTerms(3, false, true);
        silent(onTerms(3, false, false));
        doubts.begin();
        assertThat(ends(once, answered())).isTrue();
    }

    /** Units answer in no order among each other, so that asking again proves nothing. */
    @Test
    void whereAnyUnitMayReplyALateReplyOfEachIsWaitedFor() {
        silent(onTerms(3, false, false));
        assertThat(clearIn(onTerms(4, true, false))).isEqualTo(2_000);
        assertThat(clearIn(onTerms(3, true, false))).isZero();
        doubts.begin();
        assertThat(ends(onTerms(4, true, false), answered())).isTrue();
        assertThat(clearIn(onTerms(4, true, false))).isEqualTo(2_000);
    }

    @Test
    void aLateReplyThatMayCarryAnyUnitIsInTheWayOfAll() {
        silent(onTerms(3, true, false));
        assertThat(clearIn(onTerms(4, false, false))).isEqualTo(2_000);
        assertThat(clearIn(new ReadRequest(new UnitId(4), RegisterTable.COIL, 0, 1)))
                .isZero();
    }

    /** Of a question that was asked twice and answered once, one reply may still be under way. */
    @Test
    void whatIsLeftOverIsInTheWayOfItsOwnShapeAndWhereAnyUnitMayReply() {
        ReadRequest one = onTerms(3, false, false);
        ReadRequest other = request(3, RegisterTable.HOLDING_REGISTER, 1);
        silent(other);
        doubts.begin();
        assertThat(ends(one, answered())).isFalse();
        assertThat(ends(one, answered())).isTrue();
        assertThat(clearIn(onTerms(3, false, true))).isEqualTo(2_000);
        assertThat(clearIn(other)).isEqualTo(2_000);
        assertThat(clearIn(one)).isZero();
        assertThat(clearIn(onTerms(4, false, false))).isZero();
        assertThat(clearIn(onTerms(4, true, false))).isEqualTo(2_000);
        assertThat(clearIn(new ReadRequest(new UnitId(3), RegisterTable.COIL, 0, 1)))
                .isZero();
    }

    private Stamp askedAtOf(Optional<Outcome> believed) {
        Outcome outcome = believed.orElseThrow();
        return outcome instanceof Outcome.Answered read ? read.askedAt() : ((Outcome.Refused) outcome).askedAt();
    }

    /** Whichever it answers, it is a reading of those registers, and no older than the first. */
    @Test
    void aReplyThatCanOnlyBeToTheVerySameRequestIsBelievedWithTheTimeOfTheFirst() {
        Stamp first = clock.now();
        silent(TWO);
        clock.forward(Duration.ofMillis(500));
        Stamp second = clock.now();
        assertThat(begin(TWO)).isZero();
        assertThat(askedAtOf(believed(TWO, answered()))).isEqualTo(first);
        clock.forward(Duration.ofMillis(500));
        assertThat(begin(TWO)).isZero();
        assertThat(askedAtOf(believed(TWO, refused()))).isEqualTo(second);
        assertThat(begin(OTHER_TWO)).isEqualTo(2_000);
    }

    @Test
    void aReplyToARepetitionMayBeThatToTheQuestionItself() {
        silent(OTHER_TWO);
        Stamp asked = clock.now();
        begin(TWO);
        assertThat(ends(TWO, answered())).isFalse();
        clock.forward(Duration.ofMillis(100));
        assertThat(askedAtOf(believed(TWO, answered()))).isEqualTo(asked);
    }

    @Test
    void amongRequestsOfOthersTheVerySameOneHelpsNothing() {
        silent(TWO);
        silent(OTHER_TWO);
        begin(TWO);
        assertThat(ends(TWO, answered())).isFalse();
        assertThat(ends(TWO, answered())).isFalse();
        assertThat(ends(TWO, answered())).isTrue();
    }

    /** Else one reply that was lost would make a value look old for ever. */
    @Test
    void whatRunsBehindForTooLongIsWaitedOutOnce() {
        silent(TWO);
        long waited = 0;
        for (int second = 1; second <= 25; second++) {
            clock.forward(Duration.ofSeconds(1));
            long left = begin(TWO);
            waited += left;
            clock.forward(Duration.ofMillis(left));
            Stamp asked = clock.now();
            Stamp shown = askedAtOf(believed(TWO, answered()));
            assertThat(Duration.ofNanos(shown.ageAt(asked.ticks()))).isLessThanOrEqualTo(Duration.ofSeconds(1));
            assertThat(shown.equals(asked)).isEqualTo(waited > 0);
        }
        assertThat(waited).isEqualTo(1_000);
    }

    @Test
    void aRequestIsRememberedForItsTimeOnTheWireBesides() {
        wireTime = Duration.ofSeconds(5);
        silent(TWO);
        clock.forward(Duration.ofMillis(6_999));
        begin(OTHER_TWO);
        assertThat(ends(OTHER_TWO, answered())).isFalse();
    }

    /** While a reply is on the wire, the next has not begun. */
    @Test
    void aReplyWaitsForThoseBeforeIt() {
        wireTime = Duration.ofSeconds(5);
        silent(TWO);
        wireTime = Duration.ofSeconds(1);
        silent(OTHER_TWO);
        assertThat(clearIn(new ReadRequest(
                        new UnitId(3),
                        RegisterTable.HOLDING_REGISTER,
                        0,
                        9,
                        new ReadTerms(false, true, Duration.ZERO))))
                .isEqualTo(8_000);
    }
}
