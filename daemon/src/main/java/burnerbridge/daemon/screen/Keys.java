package burnerbridge.daemon.screen;

import java.io.IOException;
import java.io.InputStream;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/** Listens for keys on a thread of its own, which waits for them as long as the process lives. */
final class Keys {
    private static final int MOST_WAITING = 64;

    private final InputStream in;
    private final BlockingQueue<Key> waiting = new LinkedBlockingQueue<>(MOST_WAITING);

    Keys(InputStream in) {
        this.in = in;
    }

    void start() {
        Thread thread = new Thread(this::listen, "keys");
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler((ended, error) -> waiting.offer(Key.QUIT));
        thread.start();
    }

    private void listen() {
        try {
            for (int next = in.read(); next >= 0; next = in.read()) {
                Key key = key(next);
                if (key != null) {
                    waiting.offer(key);
                }
            }
        } catch (IOException e) {
            // The same as the end of the input.
        }
        waiting.offer(Key.QUIT);
    }

    private @Nullable Key key(int next) throws IOException {
        return switch (next) {
            case 'q', 'Q', 3, 4 -> Key.QUIT;
            case ' ', 'f' -> Key.NEXT_PAGE;
            case 'b' -> Key.PAGE_BEFORE;
            case 'j' -> Key.NEXT_LINE;
            case 'k' -> Key.LINE_BEFORE;
            case 0x1B -> sequence();
            default -> null;
        };
    }

    /** The arrows and pages of a keyboard come as ESC, [ and a letter, or a digit and a tilde. */
    private @Nullable Key sequence() throws IOException {
        if (in.available() == 0 || in.read() != '[') {
            return null;
        }
        return switch (in.read()) {
            case 'A' -> Key.LINE_BEFORE;
            case 'B' -> Key.NEXT_LINE;
            case '5' -> Key.PAGE_BEFORE;
            case '6' -> Key.NEXT_PAGE;
            default -> null;
        };
    }

    /** The next key, if one comes in time. */
    @Nullable
    Key await(long nanos) throws InterruptedException {
        return waiting.poll(nanos, TimeUnit.NANOSECONDS);
    }
}
