package burnerbridge.write;

import burnerbridge.write.ask.Fate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Who waits for what becomes of a ticket. It belongs to the gate's monitor. */
final class Followers {
    /** So many may wait for one ticket; the point's lease is renewed for more, who are told what is known then. */
    private static final int MOST_OF_ONE = 100;

    private final Map<Long, List<Fate.Follower>> waiting = new HashMap<>();

    /** Whether it will be told; false where too many wait already. */
    boolean follow(Ticket ticket, Fate.Follower follower) {
        List<Fate.Follower> others = waiting.computeIfAbsent(ticket.number(), number -> new ArrayList<>());
        return others.size() < MOST_OF_ONE && others.add(follower);
    }

    void tell(Ticket ticket, Fate fate) {
        List<Fate.Follower> told = waiting.remove(ticket.number());
        if (told != null) {
            told.forEach(follower -> follower.became(fate));
        }
    }
}
