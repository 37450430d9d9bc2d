package burnerbridge.web.http;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;

/** A connection whose other end is the test. */
final class HandWire implements Wire {
    private final StringBuilder sent = new StringBuilder();
    private String coming = "";
    private boolean ended;
    private int room = Integer.MAX_VALUE;
    boolean broken;
    boolean outputEnded;
    boolean closed;

    void comes(String text) {
        coming += text;
    }

    void ends() {
        ended = true;
    }

    /** How many octets more the other end takes. */
    void takes(int octets) {
        room = octets;
    }

    String sent() {
        return sent.toString();
    }

    @Override
    public int read(ByteBuffer into) throws IOException {
        if (broken) {
            throw new IOException("Connection reset");
        }
        if (coming.isEmpty()) {
            return ended ? -1 : 0;
        }
        int count = Math.min(coming.length(), into.remaining());
        into.put(coming.substring(0, count).getBytes(StandardCharsets.ISO_8859_1));
        coming = coming.substring(count);
        return count;
    }

    @Override
    public int write(ByteBuffer from) throws IOException {
        if (broken) {
            throw new IOException("Broken pipe");
        }
        byte[] octets = new byte[Math.min(room, from.remaining())];
        from.get(octets);
        room -= octets.length;
        sent.append(new String(octets, StandardCharsets.ISO_8859_1));
        return octets.length;
    }

    @Override
    public void endOutput() {
        outputEnded = true;
    }

    @Override
    public void close() {
        closed = true;
    }
}
