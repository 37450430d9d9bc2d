package burnerbridge.simulator.demo.screen;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/** The system's own program for the settings of the terminal that this process belongs to. */
final class Stty {
    private static final int LONGEST_SECONDS = 2;

    private Stty() {}

    /** What it says to some words; empty where there is no such program or no terminal. */
    static Optional<String> say(String words) {
        try {
            Process process = new ProcessBuilder("sh", "-c", "stty " + words + " </dev/tty 2>/dev/null").start();
            process.getOutputStream().close();
            if (!process.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS)) {
                process.destroyForcibly();
                return Optional.empty();
            }
            String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.US_ASCII).strip();
            return process.exitValue() == 0 ? Optional.of(said) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        }
    }
}
