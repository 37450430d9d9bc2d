package burnerbridge.simulator.demo.screen;

import java.io.IOException;
import java.io.InputStream;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;

/** What a visitor types. */
public interface Keys extends AutoCloseable {

    /** The next character that was typed and not asked for yet; never waits. */
    Optional<Character> next();

    /** Whether anybody can type at all. */
    boolean canBeTyped();

    /** Whether each must be followed by Enter. */
    boolean needEnter();

    /** Leaves the terminal as it was. */
    @Override
    void close();

    /** Where nobody can type. */
    static Keys none() {
        return new Keys() {
            @Override
            public Optional<Character> next() {
                return Optional.empty();
            }

            @Override
            public boolean canBeTyped() {
                return false;
            }

            @Override
            public boolean needEnter() {
                return false;
            }

            @Override
            public void close() {
                // Nothing was changed.
            }
        };
    }

    /** Of this process's terminal, each at once where the system has a way to that, else with Enter. */
    static Keys ofTheTerminal() {
        Optional<String> before = Stty.say("-g");
        boolean atOnce = before.isPresent() && Stty.say("-icanon -echo min 1").isPresent();
        Queue<Character> typed = new ConcurrentLinkedQueue<>();
        Thread reader = new Thread(() -> read(System.in, typed), "demo keys");
        reader.setDaemon(true);
        reader.start();
        return new TypedKeys(typed, atOnce ? before : Optional.empty());
    }

    private static void read(InputStream in, Queue<Character> typed) {
        try {
            for (int read = in.read(); read >= 0; read = in.read()) {
                if (!Character.isISOControl(read) || read == '\n' || read == '\r') {
                    typed.add((char) read);
                }
            }
        } catch (IOException e) {
            // Nobody types any more.
        }
    }
}
