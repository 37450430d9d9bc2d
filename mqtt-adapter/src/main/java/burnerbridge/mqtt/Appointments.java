package burnerbridge.mqtt;

import java.util.HashMap;
import java.util.Map;
import java.util.PriorityQueue;
import org.jspecify.annotations.Nullable;

/** When topics are next to be looked at: one appointment a topic, soonest first. */
final class Appointments {
    private final PriorityQueue<Entry> entries = new PriorityQueue<>((a, b) -> Long.signum(a.ticks() - b.ticks()));
    private final Map<Topic, Slot> slots = new HashMap<>();

    private record Entry(long ticks, Slot slot) {}

    private static final class Slot {
        private final Topic topic;
        private long agreed;
        /** The tick of the entry that stands for this slot; other entries of it are void. */
        private @Nullable Long queued;

        Slot(Topic topic) {
            this.topic = topic;
        }
    }

    /** Makes an appointment, in place of the topic's former one. */
    void make(Topic topic, long ticks) {
        Slot slot = slots.computeIfAbsent(topic, Slot::new);
        slot.agreed = ticks;
        // Most appointments are put off before they come: the early entry stays and is put off when it comes.
        if (slot.queued == null || slot.queued - ticks > 0) {
            enter(slot);
        }
    }

    /** The next topic whose appointment has come; null where there is none. */
    @Nullable
    Topic poll(long nowTicks) {
        for (Entry entry = entries.peek(); entry != null && entry.ticks() - nowTicks <= 0; entry = entries.peek()) {
            entries.remove();
            Slot slot = entry.slot();
            if (slot.queued == null || slot.queued != entry.ticks()) {
                continue;
            }
            slot.queued = null;
            if (slot.agreed - nowTicks <= 0) {
                return slot.topic;
            }
            enter(slot);
        }
        return null;
    }

    /** The tick at which {@link #poll} may next have something; {@code otherwise} where there is nothing. */
    long soonest(long otherwise) {
        Entry first = entries.peek();
        return first == null ? otherwise : first.ticks();
    }

    void clear() {
        entries.clear();
        slots.clear();
    }

    /** How many entries there are, void ones included. */
    int size() {
        return entries.size();
    }

    private void enter(Slot slot) {
        slot.queued = slot.agreed;
        entries.add(new Entry(slot.agreed, slot));
    }
}
