package burnerbridge.line;

import burnerbridge.outside.OutsideProgram;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Two pseudo-terminals joined by socat, as two ends of a serial cable, each under a path that stays the
 * same. They have no parity and no wire time.
 */
final class PtyPair implements AutoCloseable {
    private static final Pattern PTY = Pattern.compile("PTY is (\\S+)");

    final Path ours;
    final Path theirs;
    private Process socat;

    PtyPair(Path folder) {
        OutsideProgram.require("socat", "socat");
        ours = folder.resolve("ours");
        theirs = folder.resolve("theirs");
        socat = plugIn();
    }

    private Process plugIn() {
        try {
            Process process = new ProcessBuilder("socat", "-d", "-d", end(ours), end(theirs))
                    .redirectErrorStream(true)
                    .start();
            awaitBoth(process);
            return process;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String end(Path link) {
        return "pty,raw,echo=0,link=" + link;
    }

    private static void awaitBoth(Process process) throws IOException {
        BufferedReader said =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
        int ptys = 0;
        for (String line = said.readLine(); line != null; line = said.readLine()) {
            Matcher matcher = PTY.matcher(line);
            ptys += matcher.find() ? 1 : 0;
            if (line.contains("starting data transfer loop")) {
                break;
            }
        }
        if (ptys != 2) {
            throw new IOException("socat opened " + ptys + " pseudo-terminals");
        }
    }

    /** The cable and both ports vanish. */
    void unplug() {
        socat.destroy();
        try {
            socat.waitFor();
            Files.deleteIfExists(ours);
            Files.deleteIfExists(theirs);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void plugInAgain() {
        socat = plugIn();
    }

    @Override
    public void close() {
        unplug();
    }
}
