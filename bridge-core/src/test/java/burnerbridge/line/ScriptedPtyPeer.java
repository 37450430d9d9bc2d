package burnerbridge.line;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Path;

/** A scripted peer at the other end of a cable, which it opens as a plain file. */
final class ScriptedPtyPeer extends ScriptedPeer {
    final PtyPair cable;

    ScriptedPtyPeer(Path folder) {
        super(Shape.RTU);
        cable = new PtyPair(folder);
        listen();
    }

    /** Opens its end, again after the cable was pulled. */
    void listen() {
        try {
            RandomAccessFile file = new RandomAccessFile(cable.theirs.toFile(), "rw");
            connections.set(1);
            FileChannel channel = file.getChannel();
            start("peer", () -> serve(Channels.newInputStream(channel), Channels.newOutputStream(channel), file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void close() {
        cable.close();
    }
}
