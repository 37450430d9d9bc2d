package burnerbridge.simulator.bench;

import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.manners.Manners;
import java.io.PrintStream;
import java.time.Duration;
import java.util.Locale;
import java.util.Random;

/** Takes what a person types, a line each, and says what became of it. */
final class Conversation {
    private static final long SEED = 1;

    private final FieldDevice device;
    private final Duration turnaround;
    private final PrintStream out;
    private final Orders orders;

    /** @param turnaround what every reply takes, however it is told to behave */
    Conversation(FieldDevice device, Duration turnaround, PrintStream out) {
        this.device = device;
        this.turnaround = turnaround;
        this.out = out;
        this.orders = new Orders(device.transport());
        behave(Manners.WELL);
    }

    private void behave(Manners manners) {
        device.behave(manners.after(turnaround));
    }

    /** Returns whether the program goes on. */
    boolean take(String line) {
        String told = line.strip().toLowerCase(Locale.ROOT);
        switch (told) {
            case "" -> {}
            case Orders.END -> {
                return false;
            }
            case Orders.HELP -> out.print(orders.help());
            default -> obey(told);
        }
        out.flush();
        return true;
    }

    private void obey(String line) {
        try {
            behave(orders.understand(line).manners(new Random(SEED)));
            out.println("from now on: " + line);
        } catch (NotUnderstood e) {
            out.println("not understood: " + e.getMessage());
        }
    }
}
