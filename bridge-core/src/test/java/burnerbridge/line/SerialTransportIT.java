package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.line.Outcome.NotConnected;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** On a pair of pseudo-terminals, which have no parity. */
class SerialTransportIT extends RtuContract<ScriptedPtyPeer> {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @Override
    ScriptedPtyPeer newPeer() {
        return new ScriptedPtyPeer(folder);
    }

    @Override
    LineDefinition.Endpoint endpoint(ScriptedPtyPeer peer) {
        return serial(peer.cable.ours, false);
    }

    @Override
    boolean reopens() {
        return false;
    }

    static LineDefinition.Serial serial(Path port, boolean echo) {
        return new LineDefinition.Serial(port.toString(), 9600, Parity.NONE, 1, Rs485.AUTO, echo);
    }

    private static int descriptors() {
        String[] open = new File("/proc/self/fd").list();
        return open == null ? -1 : open.length;
    }

    @Test
    void anAdapterThatEchoesIsListenedToBehindItsEcho() {
        FramedTransport echoing = transport(serial(peer.cable.ours, true), REPLY_TIMEOUT);
        peer.then((request, out, connection) -> {
            out.write(request);
            out.write(peer.reply(request, THREE_REPLY));
        });
        assertThat(echoing.read(THREE)).isInstanceOf(Answered.class);
        peer.answers(THREE_REPLY);
        assertBroken(echoing.read(THREE), Fault.ECHO, "echo is true");
        echoing.close();
    }

    @Test
    void aPortThatIsNotThereIsNotConnected() throws Exception {
        FramedTransport nowhere = transport(serial(folder.resolve("none"), false), REPLY_TIMEOUT);
        assertThat(((NotConnected) nowhere.read(ONE)).why()).isEqualTo(folder + "/none: there is no such port");
        // A port of the same last name is not taken in its place.
        FramedTransport other = transport(serial(folder.resolve("null"), false), REPLY_TIMEOUT);
        assertThat(((NotConnected) other.read(ONE)).why()).contains("there is no such port");
        Path file = Files.createFile(folder.resolve("file"));
        assertThat(((NotConnected) transport(serial(file, false), REPLY_TIMEOUT).read(ONE)).why())
                .startsWith(file + ": ");
    }

    @Test
    void aPortThatSomebodyElseHasIsNotConnected() {
        peer.answersFromThenOn("03 02 00 0A");
        assertThat(transport.read(ONE)).isInstanceOf(Answered.class);
        FramedTransport second = transport(endpoint(peer), REPLY_TIMEOUT);
        assertThat(second.read(ONE)).isInstanceOf(NotConnected.class);
        assertThat(transport.read(ONE)).isInstanceOf(Answered.class);
        transport.close();
        assertThat(second.read(ONE)).isInstanceOf(Answered.class);
        second.close();
    }

    /** By a program that others wrote; the lock is the kernel's, which root does not get round either. */
    @Test
    void aPortThatAnotherProgramHasLockedIsNotConnectedAndThatOneIsNamed() throws Exception {
        OutsideProgram.require("flock", "util-linux");
        peer.answersFromThenOn("03 02 00 0A");
        Process holder = new ProcessBuilder("flock", "-F", peer.cable.ours.toString(), "sleep", "60").start();
        try {
            Awaitility.await()
                    .untilAsserted(() -> assertThat(((NotConnected) transport.read(ONE)).why())
                            .isEqualTo(
                                    peer.cable.ours + ": another program has it open (process " + holder.pid() + ")"));
        } finally {
            holder.destroyForcibly().waitFor();
        }
        assertThat(transport.read(ONE)).isInstanceOf(Answered.class);
    }

    @Test
    void aPortThatVanishesAndComesBackIsOpenedAgainWithoutLeakingDescriptors() {
        peer.answersFromThenOn("03 02 00 0A");
        assertThat(transport.read(ONE)).isInstanceOf(Answered.class);
        int before = 0;
        for (int i = 0; i < 20; i++) {
            peer.cable.unplug();
            assertThat(transport.read(ONE)).isInstanceOf(NotConnected.class);
            assertThat(transport.read(ONE)).isInstanceOf(NotConnected.class);
            peer.cable.plugInAgain();
            peer.listen();
            assertThat(transport.read(ONE)).isInstanceOf(Answered.class);
            before = i == 3 ? descriptors() : before;
        }
        int settled = before;
        Awaitility.await().untilAsserted(() -> assertThat(descriptors()).isLessThanOrEqualTo(settled + 2));
    }

    @Test
    void aPortThatVanishesWhileItIsReadEndsTheRead() throws Exception {
        FramedTransport patient = transport(endpoint(peer), Duration.ofMinutes(1));
        CountDownLatch asked = new CountDownLatch(1);
        peer.then((request, out, connection) -> asked.countDown());
        CompletableFuture<Outcome> outcome = CompletableFuture.supplyAsync(() -> patient.read(ONE));
        assertThat(asked.await(10, TimeUnit.SECONDS)).isTrue();
        peer.cable.unplug();
        assertBroken(outcome.get(10, TimeUnit.SECONDS), Fault.ENDED, "the port is gone");
        patient.close();
    }

    @Test
    void closingGivesTheDescriptorBack() {
        peer.answersFromThenOn("03 02 00 0A");
        assertThat(transport.read(ONE)).isInstanceOf(Answered.class);
        int open = descriptors();
        transport.close();
        assertThat(descriptors()).isLessThan(open);
    }
}
