package burnerbridge.bacnet.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.edge.LimitedLog;
import burnerbridge.model.HandClock;
import com.serotonin.bacnet4j.apdu.SegmentACK;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.primitive.OctetString;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

/** Replies in segments by ASHRAE 135, 5.4.5, where segments and acknowledgements are lost. */
final class SegmentedReplyTest {
    private static final Address PEER = new Address(new byte[] {10, 0, 0, 1, 0, 1});

    private final HandClock clock = new HandClock();
    private final List<Integer> sent = new ArrayList<>();
    private final StringBuilder data = new StringBuilder();
    private final Sender sender = new Sender(
            new NamelessNetwork() {
                @Override
                public void sendNPDU(
                        Address to, @Nullable OctetString router, ByteQueue npdu, boolean broadcast, boolean reply) {
                    byte[] octets = npdu.popAll();
                    sent.add(octets[4] & 0xFF);
                    data.append(octets.length > 7 ? octets[7] : -1).append(' ');
                }
            },
            new LimitedLog(LoggerFactory.getLogger(SegmentedReplyTest.class), clock));
    private final SegmentedReplies replies = new SegmentedReplies(sender, Timing.USUAL, clock);

    private void start(int segments) {
        byte[] octets = new byte[segments];
        for (int i = 0; i < segments; i++) {
            octets[i] = (byte) i;
        }
        replies.start((byte) 7, new SegmentedReply(new Station(PEER, null), (byte) 7, (byte) 14, octets, 1));
    }

    private void acknowledge(int sequence, int window, boolean negative) {
        replies.acknowledged(PEER, new SegmentACK(negative, false, (byte) 7, sequence & 0xFF, window, false));
    }

    private void assertSent(Integer... sequences) {
        assertThat(sent).containsExactly(sequences);
        sent.clear();
    }

    @Test
    void theFirstGoesAloneAndThenWindowsAsWideAsTheClientSays() {
        start(6);
        assertSent(0);
        acknowledge(0, 2, false);
        assertSent(1, 2);
        acknowledge(2, 3, false);
        assertSent(3, 4, 5);
        acknowledge(5, 3, false);
        assertThat(replies.isEmpty()).isTrue();
        assertThat(data.toString()).isEqualTo("0 1 2 3 4 5 ");
    }

    @Test
    void aNegativeAcknowledgementSendsAgainFromWhatIsMissing() {
        start(6);
        acknowledge(0, 4, false);
        sent.clear();
        acknowledge(2, 4, true);
        assertSent(3, 4, 5);
        acknowledge(2, 4, true);
        assertSent(3, 4, 5);
        acknowledge(2, 4, false); // said once more: nothing new
        assertSent();
    }

    @Test
    void aWindowThatIsNotAcknowledgedIsSentAgainAndGivenUpInTheEnd() {
        start(3);
        for (int attempt = 0; attempt < 2; attempt++) {
            clock.forward(Duration.ofMillis(2001));
            replies.step();
        }
        assertSent(0, 0, 0);
        clock.forward(Duration.ofMillis(2001));
        replies.step();
        assertSent();
        assertThat(replies.isEmpty()).isTrue();
        assertThat(replies.hasRoomFor(PEER, 16 << 20)).isTrue();
    }

    @Test
    void sequenceNumbersGoOnPast255() {
        start(600);
        for (int last = 0; !replies.isEmpty(); last = Math.min(599, last + 16)) {
            acknowledge(last, 16, false);
        }
        assertThat(sent).hasSize(600).startsWith(0, 1).endsWith(599 & 0xFF);
    }

    @Test
    void anAbortEndsIt() {
        start(6);
        replies.aborted(PEER, (byte) 7);
        acknowledge(0, 4, false);
        assertSent(0);
    }

    @Test
    void onePeerHasABound() {
        for (int i = 0; i < 16; i++) {
            assertThat(replies.hasRoomFor(PEER, 100)).isTrue();
            replies.start((byte) i, new SegmentedReply(new Station(PEER, null), (byte) i, (byte) 14, new byte[9], 1));
        }
        assertThat(replies.hasRoomFor(PEER, 100)).isFalse();
        assertThat(replies.hasRoomFor(new Address(new byte[] {10, 0, 0, 2, 0, 1}), 100))
                .isTrue();
        assertThat(replies.hasRoomFor(new Address(new byte[] {10, 0, 0, 2, 0, 1}), 17 << 20))
                .isFalse();
    }
}
