package burnerbridge.mqtt.broker.socket;

import java.io.BufferedInputStream;
import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.net.SocketAddress;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.SSLSocket;
import org.jspecify.annotations.Nullable;

/**
 * A socket, encrypted where it is told to be, that keeps from its reader, until something was written, even that the peer is gone.
 *
 * <p>The client library starts its threads one after the other and waits for each to run, but when the
 * connection ends meanwhile they stop, and it waits for ever: a thread for each attempt at a broker that
 * accepts and closes. Its first octet is written when all of them run.
 */
final class PatientSocket extends Socket {
    private static final long LOOK_MILLIS = 100;
    /** So that a reader whose library never writes learns of the end all the same, after five seconds. */
    private static final int MOST_LOOKS = 50;

    /** For each step of coming to an agreement; the whole of it ends with the attempt. */
    private static final int HANDSHAKE_MILLIS = 10_000;

    private final CountDownLatch written = new CountDownLatch(1);
    private final @Nullable Encryption encryption;
    private @Nullable SSLSocket encrypted;
    private boolean agreeing;

    /** A plain one. */
    PatientSocket() {
        this.encryption = null;
    }

    PatientSocket(Encryption encryption) {
        this.encryption = encryption;
    }

    /** Connects and, where it is to be encrypted, comes to an agreement with the peer. */
    @Override
    public void connect(SocketAddress address, int timeout) throws IOException {
        super.connect(address, timeout);
        if (encryption != null) {
            super.setSoTimeout(HANDSHAKE_MILLIS);
            agreeing = true;
            encrypted = encryption.over(this);
            agreeing = false;
            super.setSoTimeout(0);
        }
    }

    /** A read of an encrypted socket that is broken off could lose octets: it has no time limit. */
    @Override
    public void setSoTimeout(int timeout) throws SocketException {
        if (encryption == null || agreeing) {
            super.setSoTimeout(timeout);
        }
    }

    /** TLS cannot close one direction by itself. */
    @Override
    public void shutdownInput() throws IOException {
        if (encryption == null) {
            super.shutdownInput();
        }
    }

    @Override
    public InputStream getInputStream() throws IOException {
        if (agreeing) {
            return super.getInputStream();
        }
        return new PatientInput(encrypted == null ? super.getInputStream() : encrypted.getInputStream());
    }

    @Override
    public OutputStream getOutputStream() throws IOException {
        if (agreeing) {
            return super.getOutputStream();
        }
        return new TellingOutput(encrypted == null ? super.getOutputStream() : encrypted.getOutputStream());
    }

    /** Buffered, since the library reads a packet octet by octet, and each read would be a call of the system. */
    private final class PatientInput extends BufferedInputStream {
        private int looks;

        PatientInput(InputStream in) {
            super(in);
        }

        @Override
        public synchronized int available() throws IOException {
            if (!isOpen()) {
                return 0;
            }
            return pos < count ? count - pos : super.available();
        }

        @Override
        public synchronized int read() throws IOException {
            awaitOpen();
            return super.read();
        }

        @Override
        public synchronized int read(byte[] buffer, int offset, int length) throws IOException {
            awaitOpen();
            return super.read(buffer, offset, length);
        }

        private boolean isOpen() {
            return written.getCount() == 0 || looks >= MOST_LOOKS;
        }

        private void awaitOpen() throws IOException {
            if (!isOpen() && !look()) {
                throw new SocketTimeoutException("nothing was written yet");
            }
        }

        private boolean look() {
            looks++;
            try {
                return written.await(LOOK_MILLIS, TimeUnit.MILLISECONDS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return false;
            }
        }
    }

    private final class TellingOutput extends FilterOutputStream {
        TellingOutput(OutputStream out) {
            super(out);
        }

        @Override
        public void write(int octet) throws IOException {
            written.countDown();
            out.write(octet);
        }

        @Override
        public void write(byte[] octets, int offset, int length) throws IOException {
            written.countDown();
            out.write(octets, offset, length);
        }
    }
}
