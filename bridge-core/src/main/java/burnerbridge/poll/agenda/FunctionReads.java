package burnerbridge.poll.agenda;

import burnerbridge.line.Outcome.Refused;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The reads of a controller by one function, as far as it says that it does not know the function. Some say so of a
 * single address that they don't know, so only when each of the reads was refused like this is the function absent.
 * From then on one read stands for all, each in its turn, until one of them is answered.
 */
public final class FunctionReads {
    /** What a refusal says of the function. */
    public enum Verdict {
        /** This read alone, since the function is there, or others by it are not refused. */
        READ_REFUSED,
        /** Nothing yet: others by it have not been asked since. */
        NOT_SURE,
        FUNCTION_ABSENT
    }

    private final List<Schedule> all = new ArrayList<>();
    private final Map<Schedule, Refused> refused = new LinkedHashMap<>();
    private boolean present;
    private boolean absent;
    private int turn;

    void add(Schedule read) {
        all.add(read);
    }

    void remove(Schedule read) {
        all.remove(read);
        refused.remove(read);
    }

    /** Nothing is known of it any more. */
    void forget() {
        present = false;
        absent = false;
        refused.clear();
    }

    public List<Schedule> all() {
        return all;
    }

    public Verdict refused(Schedule read, Refused reply) {
        if (present) {
            return Verdict.READ_REFUSED;
        }
        boolean again = refused.put(read, reply) != null;
        absent = absent || refused.keySet().containsAll(all);
        if (absent) {
            return Verdict.FUNCTION_ABSENT;
        }
        return again ? Verdict.READ_REFUSED : Verdict.NOT_SURE;
    }

    /** The read that is to find out whether it is still absent. What a read clears does not, if it need not. */
    public Schedule nextProbe() {
        List<Schedule> probes =
                all.stream().filter(read -> !read.block().isOnce()).toList();
        List<Schedule> fit = probes.isEmpty() ? all : probes;
        turn = (turn + 1) % fit.size();
        return fit.get(turn);
    }

    /** The shortest interval of its reads, in nanoseconds. */
    public long every() {
        return all.stream()
                .mapToLong(read -> read.block().every().toNanos())
                .min()
                .orElseThrow();
    }

    /** Whether a read was refused like this, and it is not known yet what that means. */
    boolean isDoubtful(Schedule read) {
        return refused.containsKey(read);
    }

    public boolean isAbsent() {
        return absent;
    }

    /** A read by it was answered, so that it is there; what refusals turn out to be about a read alone. */
    public Map<Schedule, Refused> answered() {
        if (present && refused.isEmpty()) {
            return Map.of();
        }
        Map<Schedule, Refused> alone = absent ? Map.of() : new LinkedHashMap<>(refused);
        present = true;
        absent = false;
        refused.clear();
        return alone;
    }
}
