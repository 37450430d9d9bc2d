package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.LineDefinition;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** On a pair of pseudo-terminals, which have no wires to swap: the bytes are what a real line would show. */
class SerialDiagnosisIT extends RtuDiagnosisContract<ScriptedPtyPeer> {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @Override
    ScriptedPtyPeer newPeer() {
        return new ScriptedPtyPeer(folder);
    }

    @Override
    LineDefinition.Endpoint endpoint(ScriptedPtyPeer peer) {
        return SerialTransportIT.serial(peer.cable.ours, false);
    }

    @Test
    void aLineThatIsSaidToEchoAndDoesNotIsToldSo() {
        transport.close();
        transport = LineTransportContract.transport(
                SerialTransportIT.serial(peer.cable.ours, true), Duration.ofMillis(200));
        read(5, THREE, right(THREE_REPLY));
        assertFinds(Kind.ECHO, "did not come back as they were sent", "the setting `echo: true`");
    }

    @Test
    void repliesAfterTheirTimeAreTheTimeOut() throws Exception {
        for (int i = 0; i < 6; i++) {
            CountDownLatch over = new CountDownLatch(1);
            CountDownLatch sent = new CountDownLatch(1);
            read(THREE, (request, out, connection) -> {
                over.await();
                out.write(peer.reply(request, THREE_REPLY));
                sent.countDown();
            });
            over.countDown();
            assertThat(sent.await(10, TimeUnit.SECONDS)).isTrue();
            // Until it has come through the cable.
            assertThat(new CountDownLatch(1).await(30, TimeUnit.MILLISECONDS)).isFalse();
        }
        assertThat(transport.counts().heard(Heard.LATE_REPLY)).isEqualTo(5);
        read(4, THREE, NOTHING);
        assertFinds(Kind.LATE_REPLY, "a reply came after its time", "`reply-timeout`, which is too short");
    }

    @Test
    void aPortThatVanishesAgainAndAgainIsTheAdapter() throws Exception {
        for (int i = 0; i < 5; i++) {
            CountDownLatch asked = new CountDownLatch(1);
            peer.then((request, out, connection) -> asked.countDown());
            Thread pulls = new Thread(() -> {
                try {
                    asked.await();
                    peer.cable.unplug();
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
            });
            pulls.start();
            transport.read(THREE);
            pulls.join();
            peer.cable.plugInAgain();
            peer.listen();
        }
        assertFinds(Kind.ENDED, "the port ended instead of a reply", "the adapter's plug");
    }
}
