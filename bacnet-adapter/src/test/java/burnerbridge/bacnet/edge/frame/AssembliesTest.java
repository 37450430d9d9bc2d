package burnerbridge.bacnet.edge.frame;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.bacnet.edge.service.AnswerKind;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.bacnet.edge.service.FakeDirectory;
import burnerbridge.bacnet.edge.service.WriteDoor;
import burnerbridge.model.HandClock;
import java.net.InetSocketAddress;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** Segmented requests by ASHRAE 135, 5.4.5 and 20.1.6; octets put together by hand. */
final class AssembliesTest {
    private static final InetSocketAddress PEER = new InetSocketAddress("192.0.2.1", 47808);

    private final FrameJudge judge = new FrameJudge(new FakeDirectory(), WriteDoor.NONE, new HandClock(), false);
    private final Assemblies assemblies = new Assemblies(judge);
    private long now = 5;

    private List<Verdict> take(InetSocketAddress from, String apdu) {
        Verdict part = judge.judge(new Datagram(FrameJudge.unicast(Hex.octets("01 04" + apdu)), from, false));
        return assemblies.take((Verdict.Part) part, now);
    }

    private List<Verdict> take(String apdu) {
        return take(PEER, apdu);
    }

    private static Verdict answer(String apdu, AnswerKind kind) {
        return new Verdict.Answer(FrameJudge.unicast(Hex.octets("01 00" + apdu)), kind);
    }

    private static Verdict acknowledged(String apdu) {
        return answer(apdu, AnswerKind.SEGMENT_ACK);
    }

    @Test
    void aRequestInThreeSegmentsPassesWholeAndEachWindowIsAcknowledged() {
        assertThat(take("0E 04 07 00 02 0C 0C 00 00")).containsExactly(acknowledged("41 07 00 02"));
        assertThat(take("0E 04 07 01 02 0C 00 05")).isEmpty();
        assertThat(take("0A 04 07 02 02 0C 19 55"))
                .containsExactly(
                        acknowledged("41 07 02 02"),
                        new Verdict.Pass(Hex.octets("01 04 02 04 07 0C 0C 00 00 00 05 19 55"), PEER, false));
        assertThat(assemblies.count()).isZero();
    }

    @Test
    void aTagThatHidesAcrossSegmentsIsFoundInTheWhole() {
        take("0C 04 07 00 01 0F 0C 00 00 03 E8 1A 02 00 3E 0D FF");
        assertThat(take("08 04 07 01 01 0F FF FF FF FA 3F"))
                .containsExactly(acknowledged("41 07 01 01"), answer("60 07 04", AnswerKind.REJECT));
    }

    @Test
    void aMissingSegmentIsAskedForAgain() {
        take("0C 04 07 00 08 0C 0C 00");
        assertThat(take("0C 04 07 02 08 0C 05")).containsExactly(acknowledged("43 07 00 08"));
        assertThat(take("0C 04 07 01 08 0C 00 00 05")).isEmpty();
        assertThat(take("08 04 07 02 08 0C 19 55")).hasSize(2);
    }

    @Test
    void aWindowIsNoWiderThanWeTake() {
        assertThat(take("0C 04 07 00 7F 0C 0C")).containsExactly(acknowledged("41 07 00 08"));
    }

    @Test
    void aWindowOfNoneAndOneTooWideAreAborted() {
        assertThat(take("0C 04 07 00 00 0C 0C")).containsExactly(answer("71 07 07", AnswerKind.ABORT));
        assertThat(take("0C 04 07 00 80 0C 0C")).containsExactly(answer("71 07 07", AnswerKind.ABORT));
    }

    @Test
    void aSegmentOfNothingIsDropped() {
        assertThat(take("0C 04 07 01 05 0C 0C")).containsExactly(new Verdict.Drop(DropReason.SEGMENT));
    }

    @Test
    void moreSegmentsThanWeSayWeTakeAreAborted() {
        for (int i = 0; i < 15; i++) {
            take(String.format(Locale.ROOT, "0C 04 07 %02X 01 0E 00", i));
        }
        assertThat(take("0C 04 07 0F 01 0E 00")).containsExactly(answer("71 07 01", AnswerKind.ABORT));
        assertThat(assemblies.count()).isZero();
    }

    @Test
    void onePeerAndAllPeersTogetherHaveABound() {
        for (int i = 0; i < 4; i++) {
            take(String.format(Locale.ROOT, "0C 04 %02X 00 01 0E 00", i));
        }
        assertThat(take("0C 04 09 00 01 0E 00")).containsExactly(answer("71 09 09", AnswerKind.ABORT));
        for (int i = 0; i < 100; i++) {
            take(new InetSocketAddress("192.0.2." + (2 + i), 47808), "0C 04 01 00 01 0E 00");
        }
        assertThat(assemblies.count()).isEqualTo(SegmentLimits.MOST_REQUESTS);
    }

    @Test
    void whatIsNotGoneOnWithIsForgotten() {
        take("0C 04 07 00 01 0E 00");
        now += Duration.ofSeconds(9).toNanos();
        assertThat(take("08 04 07 01 01 0E 00")).containsExactly(new Verdict.Drop(DropReason.SEGMENT));
        assertThat(assemblies.count()).isZero();
    }
}
