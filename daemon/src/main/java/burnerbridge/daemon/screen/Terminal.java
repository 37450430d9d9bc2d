package burnerbridge.daemon.screen;

import java.io.Console;
import java.io.File;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.lang.reflect.Method;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * The terminal of this process: its size, and keys without waiting for the end of a line, where the program
 * {@code stty} is there to ask. {@link #close} leaves it as it was.
 */
public final class Terminal implements AutoCloseable {
    private static final File TTY = new File("/dev/tty");
    private static final String BEGIN = "\u001b[?1049h\u001b[?25l\u001b[?7l";
    private static final String END = "\u001b[?7h\u001b[?25h\u001b[?1049l";
    private static final Size USUAL = new Size(80, 24);

    private final PrintStream out;
    private final Map<String, String> environment;
    private final boolean colours;
    private @Nullable String before;
    private boolean open;

    /** In characters. */
    public record Size(int width, int height) {}

    private Terminal(PrintStream out, Map<String, String> environment) {
        this.out = out;
        this.environment = environment;
        this.colours = environment.getOrDefault("NO_COLOR", "").isEmpty();
    }

    /** On standard output, in UTF-8, which terminals take whatever locale a remote shell left in the environment. */
    public static Optional<Terminal> ofThisProcess(Map<String, String> environment) {
        return ofThisProcess(
                new PrintStream(new FileOutputStream(FileDescriptor.out), false, StandardCharsets.UTF_8), environment);
    }

    /** Empty where standard output or input is none, or one that cannot be drawn over. */
    private static Optional<Terminal> ofThisProcess(PrintStream out, Map<String, String> environment) {
        boolean draws = isTerminal(System.console())
                && !"dumb".equals(environment.get("TERM"))
                && !environment.getOrDefault("TERM", "").isEmpty();
        return draws ? Optional.of(new Terminal(out, environment)) : Optional.empty();
    }

    /** From Java 22 on there may be a console without a terminal, and a method that tells. */
    private static boolean isTerminal(@Nullable Console console) {
        if (console == null) {
            return false;
        }
        try {
            Method tells = Console.class.getMethod("isTerminal");
            return Boolean.TRUE.equals(tells.invoke(console));
        } catch (NoSuchMethodException e) {
            return true;
        } catch (ReflectiveOperationException e) {
            return false;
        }
    }

    boolean colours() {
        return colours;
    }

    /** Begins to draw and to take keys. */
    synchronized void open() {
        before = stty("-g").orElse(null);
        if (before != null) {
            // Ctrl-C comes as a key too, so that everything ends in its order.
            stty("-icanon", "-echo", "-isig", "min", "1");
        }
        open = true;
        send(BEGIN);
    }

    /** Nothing, once it is closed: a signal may end it between two drawings. */
    synchronized void draw(String bytes) {
        if (open) {
            send(bytes);
        }
    }

    private void send(String bytes) {
        out.print(bytes);
        out.flush();
    }

    /** As it is now; by the environment or the usual one where it cannot be asked. */
    Size size() {
        Optional<Size> asked = stty("size").flatMap(Terminal::size);
        return asked.orElseGet(() -> new Size(
                number("COLUMNS").orElse(USUAL.width()), number("LINES").orElse(USUAL.height())));
    }

    /** Of {@code stty size}: rows and columns; both are 0 where the terminal does not know them. */
    private static Optional<Size> size(String said) {
        String[] words = said.split(" ");
        boolean known = words.length == 2 && words[0].matches("[1-9]\\d{0,3}") && words[1].matches("[1-9]\\d{0,3}");
        return known ? Optional.of(new Size(Integer.parseInt(words[1]), Integer.parseInt(words[0]))) : Optional.empty();
    }

    private Optional<Integer> number(String variable) {
        String text = environment.getOrDefault(variable, "");
        return text.matches("[1-9]\\d{0,3}") ? Optional.of(Integer.valueOf(text)) : Optional.empty();
    }

    private static Optional<String> stty(String... arguments) {
        List<String> command = new java.util.ArrayList<>(List.of("stty"));
        command.addAll(List.of(arguments));
        try {
            Process process = new ProcessBuilder(command)
                    .redirectInput(TTY)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            try (InputStream said = process.getInputStream()) {
                String text = new String(said.readAllBytes(), StandardCharsets.US_ASCII).strip();
                return process.waitFor(1, TimeUnit.SECONDS) && process.exitValue() == 0
                        ? Optional.of(text)
                        : Optional.empty();
            }
        } catch (IOException e) {
            return Optional.empty();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        }
    }

    /** Idempotent. */
    @Override
    public synchronized void close() {
        if (open) {
            open = false;
            send(END);
            if (before != null) {
                stty(before);
            }
        }
    }
}
