package burnerbridge.benchmark.program;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A pair of pseudo-terminals, or one behind a TCP port, joined by socat. It has no wire time. */
public final class SerialCable implements AutoCloseable {
    private static final Pattern PORT = Pattern.compile("listening on .*:(\\d+)");
    /** What socat says when both ends are there, or one and a listening socket. */
    private static final Pattern READY = Pattern.compile("starting data transfer loop|listening on ");

    private final Program socat;
    private final int port;

    private SerialCable(String one, String other) {
        socat = Program.startWithErrors("socat", "-d", "-d", one, other);
        port = awaitReady();
    }

    public static SerialCable between(String one, String other) {
        return new SerialCable(pty(one), pty(other));
    }

    /** A device server: whoever connects speaks to the serial port. */
    public static SerialCable behindTcp(String pty) {
        return new SerialCable(pty(pty), "tcp-listen:0,bind=127.0.0.1,fork,nodelay");
    }

    private static String pty(String path) {
        return "pty,raw,echo=0,link=" + path;
    }

    private int awaitReady() {
        for (String line = socat.line(); ; line = socat.line()) {
            if (READY.matcher(line).find()) {
                Matcher matcher = PORT.matcher(line);
                return matcher.find() ? Integer.parseInt(matcher.group(1)) : 0;
            }
        }
    }

    /** Where it listens, if it does. */
    public int port() {
        return port;
    }

    @Override
    public void close() {
        socat.close();
    }
}
