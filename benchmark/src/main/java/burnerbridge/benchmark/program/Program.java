package burnerbridge.benchmark.program;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/** A program that is spoken to and listened to line by line. Its trouble goes to our standard error. */
public final class Program implements AutoCloseable {
    private static final long LONGEST_END_SECONDS = 10;

    private final List<String> command;
    private final Process process;
    private final BufferedReader said;
    private final Writer told;

    private Program(List<String> command, Process process) {
        this.command = command;
        this.process = process;
        this.said = process.inputReader(StandardCharsets.UTF_8);
        this.told = process.outputWriter(StandardCharsets.UTF_8);
    }

    /** Its standard error is ours. */
    public static Program start(String... command) {
        return started(new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT));
    }

    /** Both its outputs are what it says. */
    public static Program startWithErrors(String... command) {
        return started(new ProcessBuilder(command).redirectErrorStream(true));
    }

    /** Both its outputs go to a file. */
    public static Program startInto(Path log, List<String> command) {
        return started(new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.to(log.toFile())));
    }

    /** What it says is heard; its trouble goes to a file. */
    public static Program startWithErrorsInto(Path log, List<String> command) {
        return started(new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.to(log.toFile())));
    }

    private static Program started(ProcessBuilder builder) {
        try {
            return new Program(builder.command(), builder.start());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What a program says on both its outputs, until it ends well. */
    public static String output(String... command) {
        try (Program program = startWithErrors(command)) {
            StringBuilder all = new StringBuilder();
            program.said.lines().forEach(line -> all.append(line).append('\n'));
            int exitCode = program.awaitEnd();
            if (exitCode != 0) {
                throw new IllegalStateException(String.join(" ", command) + " ended with " + exitCode + ": " + all);
            }
            return all.toString();
        }
    }

    /** The next line; it is an error for the program to end instead. */
    public String line() {
        try {
            String line = said.readLine();
            if (line == null) {
                throw new IllegalStateException(String.join(" ", command) + " ended early");
            }
            return line;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Passes every line on until it has ended; returns its exit code. */
    public int toldUntilEnd(Consumer<String> listener) {
        said.lines().forEach(listener);
        return awaitEnd();
    }

    public void tell(String line) {
        try {
            told.write(line + "\n");
            told.flush();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public boolean isAlive() {
        return process.isAlive();
    }

    public long pid() {
        return process.pid();
    }

    /** The processor time that it has used, user and system, in steps of the kernel's tick. */
    public Duration processorTime() {
        return process.info().totalCpuDuration().orElse(Duration.ZERO);
    }

    private int awaitEnd() {
        try {
            if (!process.waitFor(LONGEST_END_SECONDS, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
            return process.waitFor();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /** Asks it to end, and waits no longer than so until it has. */
    public void endWithin(Duration longest) {
        process.destroy();
        try {
            process.waitFor(longest.toMillis(), TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Ends it as a service manager does, and by force where that takes too long. Idempotent. */
    @Override
    public void close() {
        process.destroy();
        awaitEnd();
    }
}
