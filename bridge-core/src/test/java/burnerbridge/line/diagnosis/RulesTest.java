package burnerbridge.line.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Fault;
import burnerbridge.line.Heard;
import burnerbridge.line.ReplyShare;
import burnerbridge.model.HandClock;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Endpoint;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import burnerbridge.site.LineDefinition.RtuOverTcp;
import burnerbridge.site.LineDefinition.Serial;
import burnerbridge.site.LineDefinition.Tcp;
import burnerbridge.site.Name;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** From counts of a minute to sentences. */
class RulesTest {
    private static final Serial SERIAL = new Serial("/dev/adapter", 19_200, Parity.EVEN, 1, Rs485.AUTO, false);
    private static final Serial ECHOING = new Serial("/dev/adapter", 19_200, Parity.EVEN, 1, Rs485.RTS_HIGH, true);
    private static final RtuOverTcp SERVER = new RtuOverTcp("10.0.0.7", 4001, 9600);
    private static final Tcp TCP = new Tcp("10.0.0.8", 502);

    private final Counted counted = new Counted();

    private List<Finding> findings(Endpoint endpoint) {
        HandClock clock = new HandClock();
        Windows windows = new Windows(clock.ticks());
        clock.forward(Duration.ofSeconds(60));
        LineDefinition line =
                new LineDefinition(new Name("tested"), endpoint, Duration.ofMillis(500), Duration.ofSeconds(3));
        return new Rules(line).findings(windows.change(counted.census(), clock.ticks()));
    }

    private void assertSays(Endpoint endpoint, String sentence) {
        assertThat(findings(endpoint)).extracting(Finding::sentence).containsExactly(sentence);
    }

    @Test
    void aLineOnWhichNobodyIsHeardIsOneSentenceForTheLine() {
        counted.silent(1, 6).silent(2, 6).silent(3, 6);
        assertSays(
                SERIAL,
                "nothing was received in reply to 18 requests in 60 s: look at the power of the units, A and B swapped, the"
                        + " unit ids, baud rate and parity (here 19200 baud, parity even, stop bits 1), and whether the"
                        + " adapter switches to sending (here rs485: auto)");
        assertSays(
                SERVER,
                "nothing was received in reply to 18 requests in 60 s: look at the power of the units, A and B swapped"
                        + " behind the device server, the unit ids, and the device server's baud rate (here 9600) and"
                        + " parity; at `reply-timeout` (here 500 ms)");
        assertSays(
                TCP,
                "nothing was received in reply to 18 requests in 60 s: look at the unit ids, whether it is Modbus TCP"
                        + " that is spoken at 10.0.0.8:502, whether a gateway there reaches the units, another client"
                        + " that keeps it busy, how many connections it takes, and `reply-timeout` (here 500 ms)");
    }

    @Test
    void aUnitThatIsSilentWhileOthersAnswerIsItsOwnSentenceAndNotTheWiring() {
        counted.answered(1, 30).silent(2, 6).answered(3, 30);
        assertSays(
                SERIAL,
                "unit 2: none of 6 requests in 60 s was answered, while others on the line are heard: look at its power,"
                        + " its unit id, its own baud rate and parity, and its plug");
        assertSays(
                SERVER,
                "unit 2: none of 6 requests in 60 s was answered, while others on the line are heard: look at its power,"
                        + " its unit id, its own baud rate and parity, and its plug");
        assertSays(
                TCP,
                "unit 2: none of 6 requests in 60 s was answered, while others on the line are heard: look at its power,"
                        + " its unit id, and whether the gateway reaches it");
    }

    @Test
    void anEchoAsksForTheSetting() {
        counted.broken(1, Fault.ECHO, 12);
        assertSays(
                SERIAL,
                "12 times on 12 requests in 60 s our own bytes came back instead of a reply, or before it: look at the"
                        + " adapter's echo: set `echo: true` on this line, or switch it off at the adapter");
        assertSays(
                ECHOING,
                "12 times on 12 requests in 60 s our own bytes did not come back as they were sent: look at the setting"
                        + " `echo: true`, which is wrong where requests do not come back, and at who else sends at the"
                        + " same time");
        assertSays(
                SERVER,
                "12 times on 12 requests in 60 s our own bytes came back instead of a reply, or before it: look at the"
                        + " device server's echo on its serial side, and switch it off there");
    }

    @Test
    void bytesThatAreNoFramesOfAllUnitsAreTheLinesSettings() {
        counted.broken(1, Fault.FRAMING, 6).broken(2, Fault.FRAMING, 6);
        assertSays(
                SERIAL,
                "12 times on 12 requests in 60 s bytes came that are no frame of a reply: look at baud rate, parity and"
                        + " stop bits (here 19200 baud, parity even, stop bits 1), and A and B swapped");
        assertSays(
                SERVER,
                "12 times on 12 requests in 60 s bytes came that are no frame of a reply: look at the device server's"
                        + " baud rate (here 9600), parity and stop bits, A and B swapped behind it, and whether it passes"
                        + " RTU frames on as they are: where it speaks Modbus TCP the line is `tcp`");
        assertSays(
                TCP,
                "12 times on 12 requests in 60 s bytes came that are no frame of a reply: look at what is spoken at"
                        + " 10.0.0.8:502: where a device server passes RTU frames on as they are the line is"
                        + " `rtu-over-tcp`; and at a gateway that mixes up transactions of several clients");
    }

    @Test
    void bytesThatAreNoFramesOfOneUnitAreThatUnitsSettings() {
        counted.answered(1, 30).broken(2, Fault.FRAMING, 6);
        assertSays(
                SERIAL,
                "unit 2: 6 times on 6 requests in 60 s bytes came that are no frame of a reply: look at baud rate, parity"
                        + " and stop bits (here 19200 baud, parity even, stop bits 1) as set at this unit");
        assertSays(
                SERVER,
                "unit 2: 6 times on 6 requests in 60 s bytes came that are no frame of a reply: look at baud rate, parity"
                        + " and stop bits as set at this unit and at the device server");
    }

    @Test
    void strayBytesBeforeAndBetweenRepliesAreTheBias() {
        counted.answered(1, 30).broken(1, Fault.STRAY_BYTES, 4).noise(3);
        assertSays(
                SERIAL,
                "7 times on 34 requests in 60 s stray bytes came before or between replies: look at the bias of the line,"
                        + " which holds its level while nobody sends, and how the adapter switches direction (here"
                        + " rs485: auto)");
        assertSays(
                SERVER,
                "7 times on 34 requests in 60 s stray bytes came before or between replies: look at the bias of the line"
                        + " behind the device server, which holds its level while nobody sends, and how the device server"
                        + " switches direction");
        assertSays(
                TCP,
                "7 times on 34 requests in 60 s stray bytes came before or between replies: look at what else is sent on"
                        + " a connection to 10.0.0.8:502 than replies");
    }

    @Test
    void lostFirstBytesAreTheTurnaround() {
        counted.answered(1, 30).broken(1, Fault.BEGINNING_LOST, 6);
        assertSays(
                ECHOING,
                "6 times on 36 requests in 60 s a reply came without its first bytes, or with wrong ones: look at the"
                        + " turnaround: the adapter still sends when the reply begins (here rs485: rts-high); a longer"
                        + " reply delay at the controller, where it has one");
        assertSays(
                SERVER,
                "6 times on 36 requests in 60 s a reply came without its first bytes, or with wrong ones: look at the"
                        + " turnaround: the device server still sends when the reply begins; a longer reply delay at the"
                        + " controller, where it has one");
    }

    @Test
    void wrongChecksumsOfAnyLengthAreNoise() {
        counted.lengths(1, new ReplyShare(40, 6), new ReplyShare(40, 7));
        assertSays(
                SERIAL,
                "13 times on 93 requests in 60 s the checksum of a reply was wrong: look at the shield and its earth,"
                        + " loose terminals, the cable beside motors and ignition, and who else sends at the same time");
        assertSays(
                SERVER,
                "13 times on 93 requests in 60 s the checksum of a reply was wrong: look at the shield and its earth,"
                        + " loose terminals, the cable beside motors and ignition, and other clients of the device"
                        + " server, who send at the same time");
    }

    @Test
    void wrongChecksumsThatRiseWithLengthAreTheTermination() {
        counted.lengths(1, new ReplyShare(40, 1), new ReplyShare(20, 12));
        String sentence =
                "the checksum was wrong in 12 of 32 replies of more than 32 bytes and in 1 of 41 of at most 16"
                        + " bytes in 60 s: look at the termination: a resistor at both ends of the cable and nowhere between,"
                        + " and no long branches; then at noise, and at a lower baud rate";
        assertSays(SERIAL, sentence);
        assertSays(SERVER, sentence);
    }

    @Test
    void wrongChecksumsOfOneUnitAreItsTerminals() {
        counted.answered(1, 30).answered(2, 30).broken(2, Fault.CHECKSUM, 6);
        assertSays(
                SERIAL,
                "unit 2: 6 times on 36 requests in 60 s the checksum of a reply was wrong: look at this unit's terminals,"
                        + " branch and shield, and a second unit with the same id");
    }

    @Test
    void cutOffRepliesAreTheTimeOutOrTheFrameGap() {
        counted.answered(1, 30).broken(1, Fault.LENGTH, 6);
        assertSays(
                SERIAL,
                "6 times on 36 requests in 60 s a reply was cut off or of another length than asked for: look at"
                        + " `reply-timeout` (here 500 ms), pauses of the unit within replies, and the adapter's buffer");
        assertSays(
                SERVER,
                "6 times on 36 requests in 60 s a reply was cut off or of another length than asked for: look at the"
                        + " device server's frame gap or packing length, and `reply-timeout` (here 500 ms)");
        assertSays(
                TCP,
                "6 times on 36 requests in 60 s a reply was cut off or of another length than asked for: look at"
                        + " `reply-timeout` (here 500 ms), the network, and the gateway's own time-out");
    }

    @Test
    void twoRepliesToOneRequestAreADoubledUnit() {
        counted.answered(1, 30)
                .answered(2, 20)
                .broken(2, Fault.OVERLAID, 6)
                .broken(2, Fault.CHECKSUM, 8)
                .heard(2, Heard.SECOND_REPLY, 9);
        String seen = "unit 2: 15 times on 34 requests in 60 s more than one reply came, 6 of them over each other";
        assertSays(SERIAL, seen + ": look at a second unit with the same id on this line");
        assertSays(SERVER, seen + ": look at a second unit with the same id behind the device server");
    }

    @Test
    void twoRepliesAfterEachOtherAreADoubledUnitOrARepeater() {
        counted.answered(1, 30).answered(2, 20).heard(2, Heard.SECOND_REPLY, 9);
        assertSays(
                TCP,
                "unit 2: 9 times on 20 requests in 60 s more than one reply came: look at a gateway that repeats replies,"
                        + " and a second unit with the same id behind it");
    }

    /** Bytes over each other at every unit are not every unit twice. */
    @Test
    void overlaidRepliesOfAllUnitsAreTheLine() {
        counted.answered(1, 30).broken(1, Fault.OVERLAID, 6).answered(2, 30).broken(2, Fault.OVERLAID, 6);
        assertThat(findings(SERIAL)).extracting(Finding::kind).containsExactly(Finding.Kind.CHECKSUM);
    }

    @Test
    void repliesOfOthersAreASecondMasterOrAGateway() {
        counted.answered(1, 30)
                .broken(1, Fault.UNIT, 3)
                .broken(1, Fault.FUNCTION, 1)
                .heard(1, Heard.OTHERS_REPLY, 2);
        assertSays(
                SERIAL,
                "6 times on 34 requests in 60 s a whole reply came that belongs to another request: look at a second"
                        + " master, whose replies these are, the units' ids, and `reply-timeout`, where they are late");
        assertSays(
                SERVER,
                "6 times on 34 requests in 60 s a whole reply came that belongs to another request: look at other clients"
                        + " of the device server, whose replies these are, and the units' ids");
        assertSays(
                TCP,
                "6 times on 34 requests in 60 s a whole reply came that belongs to another request: look at the unit ids,"
                        + " and a gateway that mixes up its units or its clients");
    }

    /** What its conversation looks like besides is not told apart. */
    @Test
    void requestsThatAreNotOursAreASecondMaster() {
        counted.answered(1, 30)
                .broken(1, Fault.UNIT, 6)
                .broken(1, Fault.STRAY_BYTES, 6)
                .heard(1, Heard.REQUEST, 2)
                .heard(9, Heard.REQUEST, 4)
                .heard(9, Heard.OTHERS_REPLY, 4);
        assertSays(
                SERIAL,
                "6 requests that are not ours were heard in 60 s, to unit 1, 9: look at what else asks on this line, such"
                        + " as a panel or a laptop: only one master may");
        assertSays(
                SERVER,
                "6 requests that are not ours were heard in 60 s, to unit 1, 9: look at what else asks on this line, such"
                        + " as a panel or another client of the device server: only one master may");
    }

    @Test
    void repliesAfterTheirTimeAreTheTimeOutAndNoSilence() {
        counted.silent(1, 8).heard(1, Heard.LATE_REPLY, 7);
        assertSays(
                SERIAL,
                "7 times on 8 requests in 60 s a reply came after its time: look at `reply-timeout`, which is too short"
                        + " for it (here 500 ms)");
        assertSays(
                SERVER,
                "7 times on 8 requests in 60 s a reply came after its time: look at `reply-timeout`, which is too short"
                        + " for it (here 500 ms)");
    }

    @Test
    void connectionsThatEndInsteadOfAReplyAreToldByTheirKind() {
        counted.broken(1, Fault.ENDED, 6);
        assertSays(
                SERIAL,
                "6 times on 6 requests in 60 s the port ended instead of a reply: look at the adapter's plug and power:"
                        + " the port vanished");
        assertSays(
                SERVER,
                "6 times on 6 requests in 60 s the connection ended instead of a reply: look at how many connections the"
                        + " device server takes, other clients that hold them, and its idle time-out");
        assertSays(
                TCP,
                "6 times on 6 requests in 60 s the connection ended instead of a reply: look at the address"
                        + " 10.0.0.8:502, how many connections it takes, other clients that hold them, and its idle"
                        + " time-out");
    }

    /** Whatever it is: four of a kind a minute, or one in fifty. */
    @ParameterizedTest
    @EnumSource(Fault.class)
    void aHealthyLineWithAFailureNowAndThenSaysNothing(Fault fault) {
        counted.answered(1, 10).broken(1, fault, 4);
        counted.answered(2, 600).broken(2, fault, 7);
        for (Endpoint endpoint : List.of(SERIAL, ECHOING, SERVER, TCP)) {
            assertThat(findings(endpoint)).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource(Heard.class)
    void whatIsHeardNowAndThenIsNoFinding(Heard what) {
        counted.answered(1, 600).heard(1, what, what == Heard.REQUEST ? 2 : 4);
        for (Endpoint endpoint : List.of(SERIAL, ECHOING, SERVER, TCP)) {
            assertThat(findings(endpoint)).isEmpty();
        }
    }

    @Test
    void aFailureAtEachOfManyUnitsIsTheLines() {
        for (int unit = 1; unit <= 10; unit++) {
            counted.answered(unit, 20).broken(unit, Fault.CHECKSUM, 1);
        }
        assertThat(findings(SERIAL)).singleElement().satisfies(finding -> {
            assertThat(finding.kind()).isEqualTo(Finding.Kind.CHECKSUM);
            assertThat(finding.unit()).isNull();
            assertThat(finding.seen()).startsWith("10 times on 210 requests");
        });
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 4})
    void aHandfulOfRequestsSaysNothing(int silent) {
        counted.silent(1, silent);
        assertThat(findings(SERIAL)).isEmpty();
    }

    /** A connection has no wiring, no echo and no checksums. */
    @Test
    void aTcpLineSpeaksNoWordOfASerialOne() {
        TcpPractice practice = new TcpPractice(TCP, Duration.ofSeconds(1));
        for (Finding.Kind kind : Finding.Kind.values()) {
            for (boolean ofOneUnit : new boolean[] {true, false}) {
                assertThat(practice.lookAt(kind, ofOneUnit).orElse(""))
                        .doesNotContain("A and B", "baud", "parity", "termination", "bias", "echo", "checksum");
            }
        }
    }
}
