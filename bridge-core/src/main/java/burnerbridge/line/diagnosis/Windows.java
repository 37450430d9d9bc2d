package burnerbridge.line.diagnosis;

import burnerbridge.line.Heard;
import burnerbridge.line.LineCounts;
import burnerbridge.line.diagnosis.Change.Part;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Remembers what the counters were when the time looked at began. A unit that is seldom asked, as a lost one
 * is, is looked at over several windows, until its requests say something.
 */
final class Windows {
    /** The longer time is this many windows, or up to twice as many. */
    private static final int LONGER = 10;

    static final Comparator<UnitId> BY_NUMBER = Comparator.comparingInt(UnitId::number);

    /** @param heard whether the unit was heard in the time that ended here */
    private record Base(LineCounts counts, long ticks, boolean heard) {
        Part until(LineCounts now, long nowTicks) {
            return new Part(now.since(counts), Duration.ofNanos(nowTicks - ticks));
        }
    }

    private final Base start;
    private final Map<UnitId, Base> units = new HashMap<>();
    private Base line;
    private Base longer;
    private Base nextLonger;
    private int ended;

    Windows(long now) {
        start = new Base(LineCounts.NONE, now, false);
        line = start;
        longer = start;
        nextLonger = start;
    }

    Change change(Census census, long now) {
        Map<UnitId, Part> all = new TreeMap<>(BY_NUMBER);
        census.units()
                .forEach((unit, counts) ->
                        all.put(unit, units.getOrDefault(unit, start).until(counts, now)));
        List<UnitId> askedByOthers = all.entrySet().stream()
                .filter(entry -> entry.getValue().counts().heard(Heard.REQUEST) > 0)
                .map(Map.Entry::getKey)
                .toList();
        boolean anybodyInDoubt = all.entrySet().stream()
                .anyMatch(
                        entry -> !entry.getValue().saysSomething() && units.getOrDefault(entry.getKey(), start).heard);
        all.values().removeIf(part -> !part.saysSomething());
        return new Change(
                line.until(census.line(), now), longer.until(census.line(), now), askedByOthers, all, anybodyInDoubt);
    }

    /** The next window begins. */
    void renew(Census census, Change change, long now) {
        line = new Base(census.line(), now, true);
        census.units().forEach((unit, counts) -> {
            Part part = change.units().get(unit);
            boolean isOurs = counts.requests() > 0;
            if (!isOurs || part != null) {
                units.put(unit, new Base(counts, now, part != null && !part.isSilent()));
            }
        });
        if (++ended % LONGER == 0) {
            longer = nextLonger;
            nextLonger = line;
        }
    }
}
