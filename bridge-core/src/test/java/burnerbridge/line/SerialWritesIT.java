package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.WriteOutcome.Accepted;
import burnerbridge.line.WriteOutcome.NotSent;
import burnerbridge.line.WriteOutcome.Unknown;
import burnerbridge.site.LineDefinition;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** On a pair of pseudo-terminals, which have no parity. */
class SerialWritesIT extends RtuWritesContract<ScriptedPtyPeer> {
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

    @Override
    boolean reopens() {
        return false;
    }

    /** A serial port has no connection that could end by itself; what waits is thrown away, and then it is written. */
    @Test
    void whatWaitsThatNobodyAskedForIsThrownAwayBeforeAWrite() {
        peer.then((request, out, connection) -> {
            out.write(peer.reply(request, "03 02 00 0A"));
            out.write(peer.reply(request, "06 002C 0384"));
        });
        transport.read(ONE);
        peer.then((request, out, connection) -> {});
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(Unknown.class);
        assertThat(transport.counts().unasked()).isEqualTo(1);
    }

    @Test
    void anAdapterThatEchoesIsListenedToBehindItsEcho() {
        FramedTransport echoing = transport(SerialTransportIT.serial(peer.cable.ours, true));
        LineWrites echoed = new FramedWrites(echoing, List.of(REGISTER));
        peer.then((request, out, connection) -> {
            out.write(request);
            out.write(peer.reply(request, "03 02 00 0A"));
        });
        echoing.read(ONE);
        peer.then((request, out, connection) -> {
            out.write(request);
            out.write(peer.reply(request, "06 002C 0384"));
        });
        assertThat(echoed.write(REGISTER, VALUE)).isInstanceOf(Accepted.class);
        // The echo alone is no reply, though it looks like one.
        peer.then((request, out, connection) -> out.write(request));
        assertThat(((Unknown) echoed.write(REGISTER, VALUE)).what()).isEqualTo("no reply in time");
        peer.answers("06 002C 0384");
        echoing.close();
    }

    @Test
    void aPortThatVanishedIsNotWritten() {
        connect();
        peer.cable.unplug();
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(NotSent.class);
        assertThat(writes.write(REGISTER, VALUE)).isInstanceOf(NotSent.class);
    }
}
