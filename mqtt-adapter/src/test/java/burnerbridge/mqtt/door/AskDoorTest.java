package burnerbridge.mqtt.door;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.mqtt.TestPlant;
import burnerbridge.mqtt.broker.Broker;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Dispatch;
import burnerbridge.mqtt.broker.Octets;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class AskDoorTest {
    private static final String BASE = "plant/heat/quillmere/boiler-1/";
    private static final String LOAD = BASE + "load";
    private static final String OWN = LOAD + "/reply/optimiser";
    private static final String GOOD = "{\"value\": 55, \"by\": \"plant optimiser\"}";
    private static final Broker.Session SESSION = new Nowhere();

    private final HandClock clock = new HandClock();
    private final FakeGate gate = new FakeGate();
    private final Site site = TestPlant.writable();
    private final AskDoor door = new AskDoor(TestPlant.settings("tcp://one"), site, gate, clock);
    private final AskDoor older = new AskDoor(TestPlant.olderSettings("tcp://one"), site, gate, clock);
    private int correlations;

    /** A door does not use the connection. */
    private static final class Nowhere implements Broker.Session {
        @Override
        public boolean publish(Broker.Message message) {
            throw new AssertionError(message);
        }

        @Override
        public void subscribe(String filter, Broker.Wanted wanted) {
            throw new AssertionError(filter);
        }

        @Override
        public void unsubscribe(String filter) {
            throw new AssertionError(filter);
        }

        @Override
        public void end() {
            throw new AssertionError("end");
        }

        @Override
        public void cut() {
            throw new AssertionError("cut");
        }
    }

    private static PointId id(String point) {
        return new PointId(new Name("boiler-1"), new Name(point));
    }

    private Dispatch dispatch() {
        return new Dispatch(OWN, Octets.of("c" + ++correlations), OptionalLong.of(30));
    }

    private static Event.Arrived arrived(String point, String payload, boolean retained, Dispatch dispatch) {
        return new Event.Arrived(SESSION, BASE + point + "/ask", Octets.of(payload), retained, dispatch);
    }

    private List<Reply> ask(String payload, Dispatch dispatch) {
        door.offer(arrived("load", payload, false, dispatch));
        return door.step(clock.now());
    }

    private List<Reply> ask(String payload) {
        return ask(payload, dispatch());
    }

    private List<Reply> askOlder(String payload) {
        older.offer(arrived("load", payload, false, Dispatch.NONE));
        return older.step(clock.now());
    }

    private static String olderAsk(String id, String expires) {
        return "{\"value\": 55, \"by\": \"older\", \"id\": \"" + id + "\", \"expires\": \"" + expires + "\"}";
    }

    @Test
    void onlyPointsForWhichMqttMayAskHaveATopic() {
        assertThat(door.topics())
                .containsExactly(LOAD + "/ask", BASE + "enable/ask", BASE + "mode/ask", BASE + "bare/ask");
        assertThat(door.takes(BASE + "limit/ask")).isFalse();
        assertThat(new AskDoor(TestPlant.settings("tcp://one"), TestPlant.siteOf(3), gate, clock).topics())
                .isEmpty();
    }

    @Test
    void anAskGoesToTheGateWithItsSlotItsAskerAndItsEnd() {
        assertThat(ask(GOOD)).isEmpty();
        Ask ask = gate.asks.get(0);
        assertThat(ask.point()).isEqualTo(id("load"));
        assertThat(ask.wanted()).isEqualTo(new Wanted.Number(new BigDecimal("55")));
        assertThat(ask.slot()).isEqualTo(12);
        assertThat(ask.source()).isEqualTo(new Source.Mqtt("plant optimiser"));
        assertThat(ask.notAfter().getAsLong() - clock.ticks())
                .isEqualTo(Duration.ofSeconds(30).toNanos());
        assertThat(gate.refusals).isEmpty();
    }

    @Test
    void whatItWaitsToBeLookedAtIsTakenFromItsLife() {
        door.offer(arrived("load", GOOD, false, dispatch()));
        clock.forward(Duration.ofSeconds(10));
        door.step(clock.now());
        assertThat(gate.asks.get(0).notAfter().getAsLong() - clock.ticks())
                .isEqualTo(Duration.ofSeconds(20).toNanos());
    }

    @Test
    void theAnswerComesAfterTheReadBackWithItsCorrelation() {
        Dispatch dispatch = dispatch();
        assertThat(ask(GOOD, dispatch)).isEmpty();
        clock.forward(Duration.ofSeconds(1));
        gate.became(0, new Fate.Written(new BigDecimal("54.5")));
        assertThat(door.step(clock.now())).containsExactly(new Reply(OWN, """
                {"result":"accepted","value":54.5,"unit":"%","sentAt":"2026-11-25T08:00:01.250Z"}""", dispatch.correlation()));
        assertThat(door.step(clock.now())).isEmpty();
    }

    static Stream<Arguments> fates() {
        return Stream.of(
                Arguments.of(
                        new Fate.Behind(8, new Source.Bacnet(0x7F000001, 47808, 0)),
                        "{\"result\":\"behind\",\"winner\":{\"slot\":8,\"source\":\"bacnet 127.0.0.1:47808\"},"),
                Arguments.of(new Fate.GivenUp(), "{\"result\":\"given-up\","),
                Arguments.of(new Fate.Overtaken(), "{\"result\":\"overtaken\","),
                Arguments.of(
                        new Fate.Withheld(Question.INTERVAL, "wait", true),
                        "{\"result\":\"held\",\"code\":\"interval\",\"sentence\":\"wait\","),
                Arguments.of(
                        new Fate.Withheld(Question.FRESH, "late", false),
                        "{\"result\":\"refused\",\"code\":\"fresh\",\"sentence\":\"late\","),
                Arguments.of(
                        new Fate.Failed("not-taken", "holds 3"),
                        "{\"result\":\"failed\",\"code\":\"not-taken\",\"sentence\":\"holds 3\","),
                Arguments.of(
                        new Fate.Failed("refused-by-controller", "exception 2"),
                        "{\"result\":\"failed\",\"code\":\"refused-by-controller\","),
                Arguments.of(
                        new Fate.Failed("unknown", "no reply"),
                        "{\"result\":\"unknown\",\"code\":\"unknown\",\"sentence\":\"no reply\","));
    }

    @ParameterizedTest
    @MethodSource("fates")
    void everyFateIsToldAsItIs(Fate fate, String payload) {
        gate.atOnce = Optional.of(fate);
        assertThat(ask(GOOD))
                .singleElement()
                .satisfies(
                        reply -> assertThat(reply.payload()).startsWith(payload).doesNotContain("\"value\""));
    }

    @Test
    void whatTheGateRefusesIsAnsweredWithItsCodeAndSentence() {
        gate.decision = new Decision.Refused(Question.RANGE, "may be written 20..90");
        assertThat(ask(GOOD))
                .singleElement()
                .satisfies(reply -> assertThat(reply.payload())
                        .startsWith(
                                "{\"result\":\"refused\",\"code\":\"range\",\"sentence\":\"may be written 20..90\","));
        // It was the gate that refused, and recorded, it.
        assertThat(gate.refusals).isEmpty();
    }

    @Test
    void anEqualAskIsToldToBeRenewed() {
        gate.decision = new Decision.Admitted(Decision.Standing.RENEWED);
        gate.atOnce = Optional.of(new Fate.Written(new BigDecimal("55")));
        assertThat(ask(GOOD))
                .singleElement()
                .satisfies(reply -> assertThat(reply.payload()).contains("\"value\":55", "\"renewed\":true"));
    }

    @Test
    void whatNobodyTellsOfIsUnknownInTheEndAndLaterNewsChangeNothing() {
        ask(GOOD);
        clock.forward(Duration.ofSeconds(59));
        assertThat(door.step(clock.now())).isEmpty();
        clock.forward(Duration.ofSeconds(1));
        assertThat(door.step(clock.now()))
                .singleElement()
                .satisfies(reply ->
                        assertThat(reply.payload()).startsWith("{\"result\":\"unknown\",\"code\":\"unknown\","));
        gate.became(0, new Fate.Written(new BigDecimal("55")));
        assertThat(door.step(clock.now())).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '\u0001', textBlock = """
            load   | 55.5            | 55.5
            load   | 1e1             | 1E+1
            load   | -0.0            | 0.0
            enable | "released"      | 1
            enable | true            | 1
            enable | false           | 0
            enable | 0               | 0
            bare   | true            | 1
            mode   | "winter"        | 2
            mode   | 2               | 2
            """)
    void aValueIsANumberAStateOrABit(String point, String value, BigDecimal wanted) {
        door.offer(arrived(point, "{\"value\": " + value + ", \"by\": \"x\"}", false, forPoint(point)));
        door.step(clock.now());
        assertThat(gate.asks)
                .singleElement()
                .satisfies(ask ->
                        assertThat(((Wanted.Number) ask.wanted()).value()).isEqualByComparingTo(wanted));
    }

    private Dispatch forPoint(String point) {
        return new Dispatch(BASE + point + "/reply", Octets.of("c" + ++correlations), OptionalLong.of(30));
    }

    @Test
    void nullGivesTheSlotUp() {
        ask("{\"value\": null, \"by\": \"x\"}");
        assertThat(gate.asks.get(0).wanted()).isInstanceOf(Wanted.Nothing.class);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '\u0001', textBlock = """
            load   | "55"
            load   | "NaN"
            load   | true
            load   | [55]
            load   | {"number": 55}
            mode   | "spring"
            mode   | true
            mode   | ""
            bare   | "true"
            """)
    void whatThePointCanNeverBeIsRefusedByItsType(String point, String value) {
        door.offer(arrived(point, "{\"value\": " + value + ", \"by\": \"x\"}", false, forPoint(point)));
        assertThat(door.step(clock.now()))
                .singleElement()
                .satisfies(
                        reply -> assertThat(reply.payload()).startsWith("{\"result\":\"refused\",\"code\":\"type\","));
        assertThat(gate.asks).isEmpty();
        assertThat(gate.refusals).singleElement().asString().startsWith("type: 'value' is ");
        assertThat(gate.sources).containsExactly("mqtt x");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "55",
                "[]",
                "{",
                "{}",
                "null",
                "{\"value\": 55}",
                "{\"by\": \"x\"}",
                "{\"value\": NaN, \"by\": \"x\"}",
                "{\"value\": Infinity, \"by\": \"x\"}",
                "{\"value\": 055, \"by\": \"x\"}",
                "{\"value\": 55, \"by\": \"x\"} {}",
                "{\"value\": 55, \"by\": \"x\",}",
                "{\"value\": 55, \"value\": 56, \"by\": \"x\"}",
                "{\"value\": 55, \"by\": \"x\", \"slot\": 1}",
                "{\"value\": 55, \"by\": \"x\", \"id\": \"1\"}",
                "{\"value\": 55, \"by\": \"\"}",
                "{\"value\": 55, \"by\": 7}",
                "{\"value\": 55, \"by\": \"a\\nb\"}",
                "{\"value\": 55, \"by\": \"a\\u009bb\"}",
                "{\"value\": 55, \"by\": \"a\\u202eb\"}",
                "{\"value\": 55, \"by\": \"a\\ud83db\"}",
                "{'value': 55, 'by': 'x'}",
                "{\"value\": [[[[[[[[[[1]]]]]]]]]], \"by\": \"x\"}"
            })
    void whatIsNoAskIsMalformed(String payload) {
        assertThat(ask(payload))
                .singleElement()
                .satisfies(reply ->
                        assertThat(reply.payload()).startsWith("{\"result\":\"refused\",\"code\":\"malformed\","));
        assertThat(gate.asks).isEmpty();
        assertThat(gate.refusals).singleElement().asString().startsWith("malformed: ");
    }

    @Test
    void whatIsTooLongIsNotEvenKept() {
        String long1 = "{\"value\": 55, \"by\": \"x\"" + " ".repeat(Arrivals.LONGEST_PAYLOAD) + "}";
        assertThat(ask(long1))
                .singleElement()
                .satisfies(reply ->
                        assertThat(reply.payload()).contains("at most 1024 octets (was " + long1.length() + ")"));
        assertThat(gate.asks).isEmpty();
    }

    @Test
    void whatIsNoUtf8IsMalformed() {
        door.offer(new Event.Arrived(
                SESSION, LOAD + "/ask", Octets.of(new byte[] {'{', (byte) 0xC3, 0x28, '}'}), false, dispatch()));
        assertThat(door.step(clock.now()))
                .singleElement()
                .satisfies(reply -> assertThat(reply.payload()).contains("malformed", "UTF-8"));
    }

    @ParameterizedTest
    @ValueSource(longs = {61, 3_600, 0xFFFF_FFFFL})
    void anAskThatHoldsForLongerThanAMinuteIsRefused(long expiry) {
        ask(GOOD, new Dispatch(OWN, Octets.of("c"), OptionalLong.of(expiry)));
        assertThat(gate.asks).isEmpty();
        assertThat(gate.refusals)
                .singleElement()
                .asString()
                .startsWith("fresh: ")
                .contains("(had " + expiry + " s)");
    }

    @Test
    void anAskThatNeverEndsIsRefused() {
        ask(GOOD, new Dispatch(OWN, Octets.of("c"), OptionalLong.empty()));
        assertThat(gate.asks).isEmpty();
        assertThat(gate.refusals).singleElement().asString().contains("(had none)");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "elsewhere",
                "plant/heat/quillmere/boiler-1/load",
                "plant/heat/quillmere/boiler-1/load/ask",
                "plant/heat/quillmere/boiler-1/load/permit",
                "plant/heat/quillmere/boiler-1/enable/reply",
                "plant/heat/quillmere/boiler-1/enable/ask",
                "plant/heat/other/boiler-1/load/reply",
                "plant/heat/quillmere/boiler-1/load/replying",
                "plant/heat/quillmere/boiler-1/load/reply/#",
                "plant/heat/quillmere/boiler-1/load/reply/+",
                "plant/heat/quillmere/boiler-1/load/reply/+/x",
                "plant/heat/quillmere/boiler-1/load/reply/\u0001",
                "plant/heat/quillmere/boiler-1/load/reply/\uffff",
                "plant/heat/quillmere/boiler-1/load/reply/\ud83d",
                "$SYS/x"
            })
    void anAnswerGoesNowhereButBelowThePointsOwnTopic(String topic) {
        assertThat(ask(GOOD, new Dispatch(topic, Octets.of("c"), OptionalLong.of(30))))
                .singleElement()
                .satisfies(reply -> {
                    assertThat(reply.topic()).isEqualTo(LOAD + "/reply");
                    assertThat(reply.payload()).contains("malformed", "response topic");
                    assertThat(reply.correlation()).isEqualTo(Octets.of("c"));
                });
        assertThat(gate.asks).isEmpty();
    }

    @Test
    void aResponseTopicAndCorrelationDataHaveALength() {
        ask(GOOD, new Dispatch(LOAD + "/reply/" + "x".repeat(512), Octets.of("c"), OptionalLong.of(30)));
        ask(GOOD, new Dispatch(OWN, Octets.of("c".repeat(129)), OptionalLong.of(30)));
        ask(GOOD, new Dispatch(OWN, Octets.NONE, OptionalLong.of(30)));
        assertThat(gate.asks).isEmpty();
        assertThat(gate.refusals).hasSize(3).allMatch(said -> said.startsWith("malformed: "));
    }

    @Test
    void whatIsRetainedIsIgnoredAndTold() {
        door.offer(arrived("load", GOOD, true, dispatch()));
        assertThat(door.step(clock.now()))
                .singleElement()
                .satisfies(reply -> assertThat(reply.payload()).contains("fresh", "retained"));
        older.offer(arrived("load", olderAsk("1", "2026-11-25T08:00:30Z"), true, Dispatch.NONE));
        assertThat(older.step(clock.now())).isEmpty();
        assertThat(gate.asks).isEmpty();
        assertThat(gate.refusals).hasSize(2).allMatch(said -> said.startsWith("fresh: an ask must not be retained"));
    }

    @Test
    void anAskThatComesTwiceIsDoneOnceAndAnsweredAlike() {
        Dispatch same = dispatch();
        ask(GOOD, same);
        // Not known yet: the one answer is to come.
        assertThat(ask(GOOD, same)).isEmpty();
        gate.became(0, new Fate.Written(new BigDecimal("55")));
        List<Reply> first = door.step(clock.now());
        clock.forward(Duration.ofSeconds(20));
        assertThat(ask(GOOD, same)).isEqualTo(first).hasSize(1);
        assertThat(gate.asks).hasSize(1);
        assertThat(gate.refusals).hasSize(2).allMatch(said -> said.startsWith("doubled: the same ask came before"));
    }

    @Test
    void anotherAskWithTheSameCorrelationIsRefused() {
        Dispatch same = dispatch();
        ask(GOOD, same);
        assertThat(ask("{\"value\": 60, \"by\": \"plant optimiser\"}", same))
                .singleElement()
                .satisfies(
                        reply -> assertThat(reply.payload()).contains("\"result\":\"refused\",\"code\":\"doubled\""));
        assertThat(gate.asks).hasSize(1);
        // The first is answered all the same.
        gate.became(0, new Fate.Written(new BigDecimal("55")));
        assertThat(door.step(clock.now())).hasSize(1);
    }

    @Test
    void theSameCorrelationOfAnotherAskerIsAnotherAsk() {
        ask(GOOD, new Dispatch(OWN, Octets.of("1"), OptionalLong.of(30)));
        ask(GOOD, new Dispatch(LOAD + "/reply/other", Octets.of("1"), OptionalLong.of(30)));
        assertThat(gate.asks).hasSize(2);
    }

    @Test
    void noAskIsForgottenWhileAMessageOfItMayLive() {
        Dispatch same = dispatch();
        gate.atOnce = Optional.of(new Fate.Written(new BigDecimal("55")));
        ask(GOOD, same);
        clock.forward(Duration.ofSeconds(119));
        ask(GOOD, same);
        assertThat(gate.asks).hasSize(1);
        clock.forward(Duration.ofSeconds(1));
        ask(GOOD, same);
        assertThat(gate.asks).hasSize(2);
    }

    @Test
    void moreMessagesThanCanWaitAreCountedAndDoNotCrowdOutAnotherPoint() {
        for (int i = 0; i < 50; i++) {
            door.offer(arrived("load", GOOD, false, dispatch()));
        }
        door.offer(arrived("mode", "{\"value\": 1, \"by\": \"x\"}", false, forPoint("mode")));
        door.step(clock.now());
        assertThat(gate.asks).hasSize(Arrivals.MOST_OF_ONE + 1);
        assertThat(gate.asks.get(gate.asks.size() - 1).point()).isEqualTo(id("mode"));
        assertThat(gate.refusals).singleElement().asString().startsWith("busy: 34 messages were not looked at");
    }

    @Test
    void moreAsksThanMayWaitForTheirFateAreRefused() {
        for (int i = 0; i < Memory.MOST_OPEN; i++) {
            ask(GOOD);
        }
        assertThat(gate.asks).hasSize(Memory.MOST_OPEN);
        assertThat(ask(GOOD))
                .singleElement()
                .satisfies(reply -> assertThat(reply.payload()).contains("\"code\":\"busy\""));
        assertThat(gate.asks).hasSize(Memory.MOST_OPEN);
        gate.became(0, new Fate.Written(new BigDecimal("55")));
        door.step(clock.now());
        ask(GOOD);
        assertThat(gate.asks).hasSize(Memory.MOST_OPEN + 1);
    }

    @Test
    void moreAsksThanAreRememberedAreRefusedRatherThanForgotten() {
        gate.atOnce = Optional.of(new Fate.Overtaken());
        Dispatch first = dispatch();
        ask(GOOD, first);
        for (int i = 1; i < Memory.MOST_OF_ONE; i++) {
            ask(GOOD);
        }
        ask(GOOD);
        assertThat(gate.asks).hasSize(Memory.MOST_OF_ONE);
        assertThat(gate.refusals).singleElement().asString().startsWith("busy: too many asks");
        assertThat(ask(GOOD, first)).hasSize(1);
        assertThat(gate.asks).hasSize(Memory.MOST_OF_ONE);
        clock.forward(Duration.ofSeconds(120));
        ask(GOOD);
        assertThat(gate.asks).hasSize(Memory.MOST_OF_ONE + 1);
    }

    @Test
    void anAskOfTheOlderVersionSaysItsIdAndItsEnd() {
        assertThat(askOlder(olderAsk("17", "2026-11-25T08:00:30.250Z"))).isEmpty();
        assertThat(gate.asks.get(0).notAfter().getAsLong() - clock.ticks())
                .isEqualTo(Duration.ofSeconds(30).toNanos());
        gate.became(0, new Fate.Written(new BigDecimal("55")));
        assertThat(older.step(clock.now())).containsExactly(new Reply(LOAD + "/reply", """
                {"id":"17","result":"accepted","value":55,"unit":"%","sentAt":"2026-11-25T08:00:00.250Z"}""", Octets.NONE));
        assertThat(askOlder(olderAsk("17", "2026-11-25T08:00:30.250Z"))).hasSize(1);
        assertThat(askOlder(olderAsk("17", "2026-11-25T08:00:31.250Z")))
                .singleElement()
                .satisfies(reply ->
                        assertThat(reply.payload()).startsWith("{\"id\":\"17\"").contains("doubled"));
        assertThat(gate.asks).hasSize(1);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            2026-11-25T08:00:00.249Z      | fresh
            2026-11-25T08:01:00.251Z      | fresh
            1970-01-01T00:00:00Z          | fresh
            +999999999-12-31T23:59:59Z    | fresh
            -999999999-01-01T00:00:00Z    | fresh
            2026-11-25T08:00:30           | malformed
            2026-11-25T08:00:30+00:00     | malformed
            2026-11-25                    | malformed
            soon                          | malformed
            """)
    void anEndThatIsOverTooFarOrNoneIsRefused(String expires, String code) {
        assertThat(askOlder(olderAsk("17", expires)))
                .singleElement()
                .satisfies(reply -> assertThat(reply.payload())
                        .startsWith("{\"id\":\"17\",\"result\":\"refused\",\"code\":\"" + code));
        assertThat(gate.asks).isEmpty();
    }

    @Test
    void atTheLastMomentAndAMinuteAheadItHolds() {
        askOlder(olderAsk("1", "2026-11-25T08:00:00.250Z"));
        askOlder(olderAsk("2", "2026-11-25T08:01:00.250Z"));
        assertThat(gate.asks).hasSize(2);
    }

    @Test
    void withoutAClockThatIsBelievedNobodyKnowsWhatIsLate() {
        clock.believe(false);
        askOlder(olderAsk("17", "2026-11-25T08:00:30Z"));
        assertThat(gate.asks).isEmpty();
        assertThat(gate.refusals).singleElement().asString().startsWith("fresh: the clock of the bridge");
        // Under MQTT 5 the broker counts, and no wall clock is asked.
        ask(GOOD);
        assertThat(gate.asks).hasSize(1);
    }

    @Test
    void theOlderVersionNeedsIdAndEnd() {
        askOlder(GOOD);
        askOlder(olderAsk("", "2026-11-25T08:00:30Z"));
        askOlder(olderAsk("x".repeat(65), "2026-11-25T08:00:30Z"));
        assertThat(gate.asks).isEmpty();
        assertThat(gate.refusals).hasSize(3).allMatch(said -> said.startsWith("malformed: "));
    }

    @Test
    void whatAStrangerWroteIsShownPlainly() {
        ask("{\"value\": \"\u202e\u009b\\ud83d" + "x".repeat(100) + "\", \"by\": \"x\"}");
        ask("{\"\u202e\u009b\u0085\": 55, \"by\": \"x\"}");
        assertThat(gate.refusals)
                .hasSize(2)
                .allSatisfy(said -> assertThat(said).contains("???").matches(Plain::isPlain));
    }

    /** Legal asks with some octets turned into others: each is asked of the gate, or refused with an answer, once. */
    @Test
    void whateverComesIsAskedOrRefusedAndNeverMoreThanThat() {
        long seed = Seed.value();
        Random random = new Random(seed);
        gate.atOnce = Optional.of(new Fate.Overtaken());
        String[] legal = {
            GOOD,
            "{\"value\": \"winter\", \"by\": \"\u00e9\"}",
            "{\"value\":1e99999999999999999999,\"by\":\"x\"}",
            "{\"value\":-0.0e-2147483648,\"by\":\"x\"}",
            "{\"value\":{\"a\":[1,2,null,true]},\"by\":\"x\"}",
            "{\"value\":null,\"by\":\"\\ud83d\\udd25\"}"
        };
        for (int i = 0; i < 20_000; i++) {
            byte[] octets = Octets.of(legal[random.nextInt(legal.length)]).toArray();
            for (int changes = random.nextInt(4); changes > 0; changes--) {
                octets[random.nextInt(octets.length)] = (byte) random.nextInt(256);
            }
            int before = gate.asks.size() + gate.refusals.size();
            clock.forward(Duration.ofSeconds(1));
            door.offer(new Event.Arrived(SESSION, BASE + "mode/ask", Octets.of(octets), false, forPoint("mode")));
            assertThat(door.step(clock.now())).as("seed " + seed + ", ask " + i).hasSize(1);
            assertThat(gate.asks.size() + gate.refusals.size())
                    .as("seed " + seed + ", ask " + i)
                    .isEqualTo(before + 1);
        }
        assertThat(gate.asks).hasSizeGreaterThan(1_000);
        assertThat(gate.refusals).hasSizeGreaterThan(1_000).allMatch(Plain::isPlain);
    }

    @Test
    void anAskOfTheOneVersionIsNoneOfTheOther() {
        assertThat(ask(olderAsk("1", "2026-11-25T08:00:30Z")))
                .singleElement()
                .satisfies(reply -> assertThat(reply.payload()).contains("no member 'id'"));
    }
}
