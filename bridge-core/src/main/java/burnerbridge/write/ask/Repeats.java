package burnerbridge.write.ask;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;

/**
 * The answers of the last while, so that a request that a station sends again, since the answer was lost, is answered and
 * not done again. Bounded: of more requests than it holds the oldest is forgotten first. Not for several threads.
 *
 * @param <K> by what a request is known
 * @param <A> an answer
 */
public final class Repeats<K, A> {
    private final long memory;
    private final int most;
    private final Map<K, Entry<K, A>> answers = new HashMap<>();
    private final Queue<Entry<K, A>> inOrder = new ArrayDeque<>();

    private record Entry<K, A>(K key, A answer, long until) {}

    /**
     * @param memory how long a station may repeat a request: its time-out times its tries
     * @param most how many answers are kept
     */
    public Repeats(Duration memory, int most) {
        this.memory = memory.toNanos();
        this.most = most;
    }

    /** The answer that was given to the very same request. */
    public Optional<A> answer(K key, long now) {
        forget(now);
        return Optional.ofNullable(answers.get(key)).map(Entry::answer);
    }

    public void answered(K key, A answer, long now) {
        forget(now);
        Entry<K, A> entry = new Entry<>(key, answer, now + memory);
        answers.put(key, entry);
        inOrder.add(entry);
        if (inOrder.size() > most) {
            drop(inOrder.remove());
        }
    }

    private void forget(long now) {
        for (Entry<K, A> oldest = inOrder.peek(); oldest != null && now - oldest.until >= 0; oldest = inOrder.peek()) {
            drop(inOrder.remove());
        }
    }

    private void drop(Entry<K, A> entry) {
        answers.remove(entry.key(), entry);
    }
}
