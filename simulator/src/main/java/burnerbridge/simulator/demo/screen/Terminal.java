package burnerbridge.simulator.demo.screen;

import java.io.Console;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.lang.reflect.Method;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Where the demo writes to.
 *
 * @param redraws whether it is a terminal that can be drawn over
 * @param colours whether it is to show colours
 * @param environment of the process
 */
public record Terminal(PrintStream out, boolean redraws, boolean colours, Map<String, String> environment) {

    /** Standard output of this process; {@code NO_COLOR} and {@code TERM=dumb} are heeded. */
    public static Terminal ofThisProcess(boolean noColour, Map<String, String> environment) {
        boolean redraws = isTerminal(System.console()) && !"dumb".equals(environment.get("TERM"));
        boolean colours =
                redraws && !noColour && environment.getOrDefault("NO_COLOR", "").isEmpty();
        // Terminals take UTF-8, whatever locale a remote shell left in the environment.
        PrintStream out = new PrintStream(new FileOutputStream(FileDescriptor.out), true, StandardCharsets.UTF_8);
        return new Terminal(out, redraws, colours, environment);
    }

    /** @param keys what they do, for the last lines */
    public Screen screen(String keys) {
        return redraws
                ? new RedrawnScreen(out, new LiveView(keys), new SizeWatch(environment), colours)
                : new EventLog(out);
    }

    /** Those of the terminal, where it is one. */
    public Keys keys() {
        return redraws && isTerminal(System.console()) ? Keys.ofTheTerminal() : Keys.none();
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

    /** Asks anew now and then, since windows change their size. */
    private static final class SizeWatch implements java.util.function.Supplier<Size> {
        private static final int ASKED_EVERY = 8;

        private final Map<String, String> environment;
        private Size size = Size.USUAL;
        private int count;

        SizeWatch(Map<String, String> environment) {
            this.environment = environment;
        }

        @Override
        public Size get() {
            if (count++ % ASKED_EVERY == 0) {
                Optional<String> told = Stty.say("size");
                size = Size.of(told.orElse(""), environment);
            }
            return size;
        }
    }
}
