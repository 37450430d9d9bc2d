package burnerbridge.simulator.demo.screen;

import java.util.Optional;
import java.util.Queue;

/** Keys of a terminal. */
final class TypedKeys implements Keys {
    private final Queue<Character> typed;
    private final Optional<String> before;
    private boolean closed;

    /** @param before what the terminal's settings were before they were changed; empty where they were not */
    TypedKeys(Queue<Character> typed, Optional<String> before) {
        this.typed = typed;
        this.before = before;
    }

    @Override
    public Optional<Character> next() {
        return Optional.ofNullable(typed.poll());
    }

    @Override
    public boolean canBeTyped() {
        return true;
    }

    @Override
    public boolean needEnter() {
        return before.isEmpty();
    }

    @Override
    public void close() {
        if (!closed) {
            closed = true;
            before.ifPresent(Stty::say);
        }
    }
}
