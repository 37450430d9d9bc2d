package burnerbridge.daemon;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What askers were told: what may have left by it, and what must not have been said. For any thread. */
final class AskLedger {
    private static final int MOST = 20;

    private final Map<AskTarget, Set<Integer>> mayLeave = new HashMap<>();
    private final Map<AskTarget, Set<Integer>> wasWritten = new HashMap<>();
    private final Map<String, Integer> counts = new HashMap<>();
    private final List<String> wrong = new ArrayList<>();

    /** An ask that may have been admitted. */
    synchronized void mayLeave(AskTarget target, int register) {
        mayLeave.computeIfAbsent(target, t -> new HashSet<>()).add(register);
    }

    synchronized boolean mayHaveLeft(AskTarget target, int register) {
        return mayLeave.getOrDefault(target, Set.of()).contains(register);
    }

    /** Somebody was told that it was written and read back. */
    synchronized void saidToBeWritten(AskTarget target, int register) {
        wasWritten.computeIfAbsent(target, t -> new HashSet<>()).add(register);
    }

    synchronized Map<AskTarget, Set<Integer>> saidToBeWritten() {
        return Map.copyOf(wasWritten);
    }

    synchronized void count(String what) {
        counts.merge(what, 1, Integer::sum);
    }

    synchronized int counted(String what) {
        return counts.getOrDefault(what, 0);
    }

    synchronized Map<String, Integer> counts() {
        return Map.copyOf(counts);
    }

    synchronized void wrong(String what) {
        if (wrong.size() < MOST) {
            wrong.add(what);
        }
    }

    synchronized List<String> wrong() {
        return List.copyOf(wrong);
    }
}
