package burnerbridge.mqtt.broker;

import java.io.FilterInputStream;
import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * A socket that keeps from its reader, until something was written, even that the peer is gone.
 *
 * <p>The client library starts its threads one after the other and waits for each to run, but when the
 * connection ends meanwhile they stop, and it waits for ever: a thread for each attempt at a broker that
 * accepts and closes. Its first octet is written when all of them run.
 */
final class PatientSocket extends Socket {
    private static final long LOOK_MILLIS = 100;
    /** So that a reader whose library never writes learns of the end all the same, after five seconds. */
    private static final int MOST_LOOKS = 50;

    private final CountDownLatch written = new CountDownLatch(1);

    @Override
    public InputStream getInputStream() throws IOException {
        return new PatientInput(super.getInputStream());
    }

    @Override
    public OutputStream getOutputStream() throws IOException {
        return new TellingOutput(super.getOutputStream());
    }

    private final class PatientInput extends FilterInputStream {
        private int looks;

        PatientInput(InputStream in) {
            super(in);
        }

        @Override
        public int available() throws IOException {
            return isOpen() ? super.available() : 0;
        }

        @Override
        public int read() throws IOException {
            awaitOpen();
            return super.read();
        }

        @Override
        public int read(byte[] buffer, int offset, int length) throws IOException {
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
