package burnerbridge.web.http;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SocketChannel;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A connection that does not block. */
record SocketWire(SocketChannel channel) implements Wire {
    private static final Logger LOG = LoggerFactory.getLogger(SocketWire.class);

    @Override
    public int read(ByteBuffer into) throws IOException {
        return channel.read(into);
    }

    @Override
    public int write(ByteBuffer from) throws IOException {
        return channel.write(from);
    }

    @Override
    public void endOutput() throws IOException {
        channel.shutdownOutput();
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException e) {
            LOG.debug("web: a connection could not be closed", e);
        }
    }
}
