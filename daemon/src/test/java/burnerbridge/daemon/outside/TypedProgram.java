package burnerbridge.daemon.outside;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** A program that is typed to; ended by its own handle, its words kept in a file. */
final class TypedProgram implements AutoCloseable {
    private static final long LONGEST_END_SECONDS = 30;

    private final Process process;
    private final Path log;

    private TypedProgram(Process process, Path log) {
        this.process = process;
        this.log = log;
    }

    static TypedProgram start(Path log, Path folder, Map<String, String> environment, List<String> command) {
        try {
            ProcessBuilder builder = new ProcessBuilder(command)
                    .directory(folder.toFile())
                    .redirectErrorStream(true)
                    .redirectOutput(log.toFile());
            builder.environment().putAll(environment);
            return new TypedProgram(builder.start(), log);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void type(String text) {
        try {
            OutputStream keys = process.getOutputStream();
            keys.write(text.getBytes(StandardCharsets.UTF_8));
            keys.flush();
        } catch (IOException e) {
            throw new UncheckedIOException(said(), e);
        }
    }

    boolean isAlive() {
        return process.isAlive();
    }

    /** As far as it has come; a character that is cut in two is not shown right. */
    String said() {
        try {
            return new String(Files.readAllBytes(log), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Lets it end, by force where it does not, and with it what it had started and left in the background. */
    @Override
    public void close() {
        List<ProcessHandle> started = process.descendants().toList();
        try {
            process.getOutputStream().close();
        } catch (IOException e) {
            // It has ended already.
        }
        try {
            if (!process.waitFor(LONGEST_END_SECONDS, TimeUnit.SECONDS)) {
                process.destroy();
            }
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
        }
        started.forEach(ProcessHandle::destroy);
    }
}
