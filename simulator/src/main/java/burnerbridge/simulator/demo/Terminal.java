package burnerbridge.simulator.demo;

import java.io.Console;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.lang.reflect.Method;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Where the demo writes to.
 *
 * @param redraws whether it is a terminal that can be drawn over
 * @param colours whether it is to show colours
 */
record Terminal(PrintStream out, boolean redraws, boolean colours) {

    /** Standard output of this process; {@code NO_COLOR} and {@code TERM=dumb} are heeded. */
    static Terminal ofThisProcess(boolean noColour, Map<String, String> environment) {
        boolean redraws = isTerminal(System.console()) && !"dumb".equals(environment.get("TERM"));
        boolean colours =
                redraws && !noColour && environment.getOrDefault("NO_COLOR", "").isEmpty();
        // Terminals take UTF-8, whatever locale a remote shell left in the environment.
        PrintStream out = new PrintStream(new FileOutputStream(FileDescriptor.out), true, StandardCharsets.UTF_8);
        return new Terminal(out, redraws, colours);
    }

    Screen screen(List<PlantRow> rows, Function<String, Optional<Published>> published, String footer) {
        LiveTable table = new LiveTable(rows, published, footer, new Ink(colours));
        return redraws ? new RedrawnScreen(out, table) : new PhaseLog(out, table, published);
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
}
