package burnerbridge.simulator.manners;

import static burnerbridge.simulator.manners.Exchanges.REPLY;
import static burnerbridge.simulator.manners.Exchanges.REQUEST;
import static burnerbridge.simulator.manners.Exchanges.TCP_REPLY;
import static burnerbridge.simulator.manners.Exchanges.TCP_REQUEST;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.frame.Transport;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class MisbehaviourTest {
    private static final Transport RTU = Transport.RTU_SERIAL;
    private static final Transport TCP = Transport.MODBUS_TCP;
    private static final long SEED = 20261125;

    private final Random dice = new Random(SEED);

    private String first(Misbehaviour what, int number, Transport transport) {
        return Exchanges.told(what.manners(number, dice).toward(Exchanges.on(transport)));
    }

    @ParameterizedTest
    @CsvSource({
        "SILENT, 0, ''",
        "LATE, 800, not-before-800 " + REPLY,
        "TWICE, 0, " + REPLY + REPLY,
        "EXCEPTION, 2, 118302C134",
        "BUSY, 0, 118306C0F7",
        "ACKNOWLEDGE, 0, 11830580F6",
        "SMALL_BLOCKS, 2, 118302C134",
        "SMALL_BLOCKS, 3, " + REPLY,
        "FEWER, 0, 110304022B00009A42",
        "MORE, 0, 110308022B0000006400009A13",
        "ECHO, 0, " + REQUEST + REPLY,
        "ECHO_ONLY, 0, " + REQUEST,
        "FIRST_BYTE_LOST, 0, 0306022B00000064C8BA",
        "ZEROS, 0, 110306000000000000ECB5",
    })
    void onASerialLine(Misbehaviour what, int number, String acts) {
        assertThat(first(what, number, RTU)).isEqualTo(acts);
    }

    @ParameterizedTest
    @CsvSource({
        "SILENT, 0, ''",
        "LATE, 800, not-before-800 " + TCP_REPLY,
        "EXCEPTION, 11, BEEF0000000311830B",
        "FEWER, 0, BEEF00000007110304022B0000",
        "MORE, 0, BEEF0000000B110308022B000000640000",
        "ECHO_ONLY, 0, " + TCP_REQUEST,
        "HANG_UP_BEFORE, 0, hang-up",
        "HANG_UP_AFTER, 0, " + TCP_REPLY + " hang-up",
        "REFUSE, 50, refuse-50",
    })
    void onTcp(Misbehaviour what, int number, String acts) {
        assertThat(first(what, number, TCP)).isEqualTo(acts);
    }

    @Test
    void everyExceptionCodeCanBeHad() {
        assertThat(IntStream.rangeClosed(1, 255).mapToObj(code -> first(Misbehaviour.EXCEPTION, code, TCP)))
                .allMatch(told -> told.startsWith("BEEF000000031183"))
                .doesNotHaveDuplicates();
    }

    @ParameterizedTest
    @CsvSource({
        // From where to where the bytes may differ from the right ones, and how many must.
        "WRONG_UNIT, MODBUS_TCP, 6, 7, 1",
        "WRONG_FUNCTION, MODBUS_TCP, 7, 8, 1",
        "WRONG_BYTE_COUNT, MODBUS_TCP, 8, 9, 1",
        "WRONG_TRANSACTION, MODBUS_TCP, 0, 2, 1",
        "WRONG_PROTOCOL, MODBUS_TCP, 2, 4, 1",
        "WRONG_LENGTH, MODBUS_TCP, 4, 6, 1",
        "BAD_CRC, RTU_SERIAL, 9, 11, 1",
        // With a checksum of their own, which is in most cases another.
        "WRONG_UNIT, RTU_SERIAL, 0, 11, 2",
        "WRONG_FUNCTION, RTU_SERIAL, 1, 11, 2",
        "WRONG_BYTE_COUNT, RTU_OVER_TCP, 2, 11, 2",
    })
    void aWrongFieldIsWrongAndTheRestIsRight(Misbehaviour what, Transport transport, int from, int to, int least) {
        byte[] right = Exchanges.on(transport).rightly().bytes();
        for (int i = 0; i < 500; i++) {
            byte[] sent = Exchanges.bytes(first(what, 0, transport));
            assertThat(sent).hasSameSizeAs(right);
            List<Integer> differing = IntStream.range(0, sent.length)
                    .filter(at -> sent[at] != right[at])
                    .boxed()
                    .toList();
            assertThat(differing).hasSizeGreaterThanOrEqualTo(least).allMatch(at -> at >= from && at < to);
        }
    }

    @Test
    void whatIsCutOffIsABeginning() {
        for (int i = 0; i < 500; i++) {
            String sent = first(Misbehaviour.CUT_OFF, 0, RTU);
            assertThat(REPLY).startsWith(sent);
            assertThat(sent.length()).isBetween(2, REPLY.length() - 2);
            assertThat(first(Misbehaviour.HANG_UP_INSIDE, 0, TCP)).endsWith(" hang-up");
        }
    }

    @Test
    void whatDribblesComesByteForByte() {
        String told = first(Misbehaviour.DRIBBLED, 7, RTU);

        assertThat(told.replace(" pause-7 ", "")).isEqualTo(REPLY);
        assertThat(told).hasSize(11 * 2 + 10 * " pause-7 ".length());
    }

    @Test
    void noiseStandsWhereItIsSaidTo() {
        for (int i = 0; i < 500; i++) {
            assertThat(first(Misbehaviour.NOISE_BEFORE, 0, RTU)).endsWith(REPLY).isNotEqualTo(REPLY);
            assertThat(first(Misbehaviour.NOISE_AFTER, 0, RTU))
                    .startsWith(REPLY)
                    .isNotEqualTo(REPLY);
            assertThat(first(Misbehaviour.NOISE_INSIDE, 0, RTU))
                    .startsWith("11")
                    .isNotEqualTo(REPLY)
                    .hasSizeGreaterThanOrEqualTo(REPLY.length());
        }
    }

    @Test
    void oneBehindBringsEachReplyWithTheNextRequestAndAllWithTheLast() {
        Manners manners = Misbehaviour.ONE_BEHIND.manners(3, dice);

        assertThat(Exchanges.told(manners.toward(exchange("01", Duration.ZERO))))
                .isEmpty();
        assertThat(Exchanges.told(manners.toward(exchange("02", Duration.ZERO))))
                .matches("BEEF00000007\\w+01");
        assertThat(Exchanges.told(manners.toward(exchange("03", Duration.ZERO))))
                .matches("BEEF00000007\\w+02 pause-2 BEEF00000007\\w+03");
        assertThat(Exchanges.told(manners.toward(exchange("04", Duration.ZERO))))
                .matches("BEEF00000007\\w+04");
    }

    @Test
    void whatWasHeldForTooLongIsLost() {
        Manners manners = Timing.oneBehind(3, Duration.ofMillis(100));
        manners.toward(exchange("01", Duration.ofMillis(101)));

        assertThat(manners.toward(exchange("02", Duration.ZERO))).isEmpty();
    }

    private static Exchange exchange(String lastByte, Duration age) {
        return Exchanges.on(TCP, "0300000002", "0304010203" + lastByte, age);
    }

    @Test
    void theSecondWordOfAPairIsOld() {
        Manners manners = Misbehaviour.TORN_PAIRS.manners(0, dice);
        String request = "0300640004";
        manners.toward(Exchanges.on(RTU, request, "03080001000200030004", Duration.ZERO));

        assertThat(Exchanges.told(manners.toward(Exchanges.on(RTU, request, "03081111222233334444", Duration.ZERO))))
                .startsWith("1103081111000233330004");
    }

    @Test
    void theSecondWordIsOldInATransactionOfItsOwnToo() {
        Manners manners = Misbehaviour.TORN_PAIRS.manners(0, dice);
        manners.toward(Exchanges.on(RTU, "0300650001", "03020002", Duration.ZERO));

        assertThat(Exchanges.told(manners.toward(Exchanges.on(RTU, "0300650001", "03022222", Duration.ZERO))))
                .startsWith("1103020002");
        assertThat(Exchanges.told(manners.toward(Exchanges.on(RTU, "0300640001", "03021111", Duration.ZERO))))
                .startsWith("1103021111");
    }

    @Test
    void twoUnitsAtOnceAreNeitherOfThem() {
        for (int i = 0; i < 500; i++) {
            assertThat(first(Misbehaviour.TWO_UNITS_AT_ONCE, 0, RTU)).isNotEqualTo(REPLY);
            assertThat(first(Misbehaviour.TWO_UNITS_IN_TURN, 0, RTU))
                    .startsWith(REPLY + "110306")
                    .hasSize(2 * REPLY.length())
                    .isNotEqualTo(REPLY + REPLY);
        }
    }

    @Test
    void aSecondMasterAsksForSomethingElseAndIsAnswered() {
        for (int i = 0; i < 500; i++) {
            assertThat(first(Misbehaviour.SECOND_MASTER_BEFORE, 0, RTU))
                    .matches("110\\w{13} pause-2 118\\w{7} pause-2 " + REPLY);
            assertThat(first(Misbehaviour.SECOND_MASTER_BETWEEN, 0, RTU))
                    .matches("110\\w{13} pause-2 " + REPLY + " pause-2 118\\w{7}");
            assertThat(first(Misbehaviour.SECOND_MASTER_INSTEAD, 0, RTU)).doesNotContain(REPLY);
        }
    }

    @ParameterizedTest
    @EnumSource(Transport.class)
    void eachIsDoneWhereItMakesSenseToARefusalToo(Transport transport) {
        Arrays.stream(Misbehaviour.values())
                .filter(what -> what.makesSenseOn(transport))
                .forEach(what -> assertThat(what.manners(
                                        what.argument()
                                                .map(Misbehaviour.Argument::least)
                                                .orElse(0),
                                        dice)
                                .toward(Exchanges.on(transport, "0300FF0002", "8302", Duration.ZERO)))
                        .isNotNull());
    }

    @Test
    void whereEachMakesSenseIsSaid() {
        assertThat(onlyOn(Transport.MODBUS_TCP)).isEqualTo("wrong-transaction wrong-protocol wrong-length");
        assertThat(onlyOn(Transport.RTU_SERIAL)).isEmpty();
        assertThat(Misbehaviour.BAD_CRC.makesSenseOn(Transport.RTU_OVER_TCP)).isTrue();
        assertThat(Misbehaviour.REFUSE.makesSenseOn(Transport.RTU_OVER_TCP)).isTrue();
        assertThat(Misbehaviour.REFUSE.makesSenseOn(Transport.RTU_SERIAL)).isFalse();
    }

    private static String onlyOn(Transport transport) {
        return Arrays.stream(Misbehaviour.values())
                .filter(what ->
                        Arrays.stream(Transport.values()).allMatch(t -> what.makesSenseOn(t) == (t == transport)))
                .map(Misbehaviour::word)
                .collect(Collectors.joining(" "));
    }

    @Test
    void aNumberOutOfRangeIsRefused() {
        assertThatThrownBy(() -> Misbehaviour.EXCEPTION.manners(0, dice))
                .hasMessage("exception: code must be 1 to 255 (was 0)");
    }

    @Test
    void anyOfThemCanComeAfterAPause() {
        Manners slow = Misbehaviour.ECHO_ONLY.manners(0, dice).after(Duration.ofMillis(5));
        assertThat(Exchanges.told(slow.toward(Exchanges.on(RTU)))).isEqualTo("pause-5 " + REQUEST);
        assertThat(Manners.WELL.after(Duration.ZERO)).isSameAs(Manners.WELL);
    }
}
