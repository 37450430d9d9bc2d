package burnerbridge.simulator.bench;

import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WrittenFrame;
import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.modbus.AcceptingImage;
import java.io.PrintStream;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;

/** Takes what a person types, a line each, and says what became of it. */
final class Conversation {
    private static final long SEED = 1;

    private final FieldDevice device;
    private final Duration turnaround;
    private final PrintStream out;
    private final Orders orders;
    private final Map<Integer, AcceptingImage> writable;

    /**
     * @param writable the units that somebody else can change
     * @param turnaround what every reply takes, however it is told to behave
     */
    Conversation(FieldDevice device, Map<Integer, AcceptingImage> writable, Duration turnaround, PrintStream out) {
        this.device = device;
        this.writable = Map.copyOf(writable);
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
            case Orders.WRITES -> tellWrites();
            default -> obey(told);
        }
        out.flush();
        return true;
    }

    private void tellWrites() {
        List<WrittenFrame> written = device.written();
        written.forEach(frame -> out.println("unit " + frame.unit() + ": " + frame));
        out.println(written.size() + (written.size() == 1 ? " frame" : " frames") + " that were no reads");
    }

    private void obey(String line) {
        try {
            if (line.startsWith(Orders.SET + " ")) {
                set(line.split("\\s+"));
                out.println("done: " + line);
                return;
            }
            Order order = orders.understand(line);
            order.manners(new Random(SEED)).ifPresent(this::behave);
            order.writeManners(new Random(SEED)).ifPresent(device::behaveTowardWrites);
            out.println("from now on: " + line);
        } catch (NotUnderstood e) {
            out.println("not understood: " + e.getMessage());
        }
    }

    private void set(String[] words) throws NotUnderstood {
        if (words.length != 5) {
            throw new NotUnderstood("set: unit, table, address and value are needed");
        }
        AcceptingImage image = writable.get(Orders.whole("set: unit", words[1], 1, 247));
        if (image == null) {
            throw new NotUnderstood("set: unit " + words[1] + " is not there, or takes no writes (see --accept)");
        }
        image.set(
                Tables.called(words[2]),
                Orders.whole("set: address", words[3], 0, 65535),
                Orders.whole("set: value", words[4], 0, 65535));
    }
}
