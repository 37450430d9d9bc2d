package burnerbridge.write.slot;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** The slots of one point. The lowest number that holds anything wins. Not for several threads. */
public final class Slots {
    private final SortedMap<Integer, Slot> held = new TreeMap<>();

    public Optional<Slot> at(int number) {
        return Optional.ofNullable(held.get(number));
    }

    public Optional<Slot> winner() {
        return held.isEmpty() ? Optional.empty() : Optional.ofNullable(held.get(held.firstKey()));
    }

    public void put(Slot slot) {
        held.put(slot.number(), slot);
    }

    /** What it held. */
    public Optional<Slot> giveUp(int number) {
        return Optional.ofNullable(held.remove(number));
    }

    /** Gives up all whose lease is over, and says which. */
    public List<Slot> end(long now) {
        List<Slot> ended =
                held.values().stream().filter(slot -> slot.hasEnded(now)).toList();
        ended.forEach(slot -> held.remove(slot.number()));
        return ended;
    }

    public void clear() {
        held.clear();
    }

    public boolean isEmpty() {
        return held.isEmpty();
    }

    /** All that are held, the first to win first. */
    public List<Slot> all() {
        return List.copyOf(held.values());
    }
}
