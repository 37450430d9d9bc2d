package burnerbridge.poll.agenda;

import burnerbridge.plan.ReadBlock;
import burnerbridge.site.SitePoint;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * The parts of a read that was refused as a whole. It is halved until each part is answered, or is refused and cannot
 * be halved. The parts that were answered and lie side by side are then read together again, once: should that be
 * refused, it was for their number or for what lies between them, and they stay apart.
 */
public final class Family {
    private final ReadBlock whole;
    private final Set<Schedule> members = new LinkedHashSet<>();
    private final Set<Schedule> open = new LinkedHashSet<>();
    private final Set<Schedule> refused = new LinkedHashSet<>();
    private boolean joinedOnce;

    public Family(ReadBlock whole) {
        this.whole = whole;
    }

    public ReadBlock whole() {
        return whole;
    }

    public List<Schedule> members() {
        return List.copyOf(members);
    }

    /** A member, or the whole itself, is read in parts from now on. */
    public void split(Schedule member, List<Schedule> parts) {
        remove(member);
        members.addAll(parts);
        open.addAll(parts);
        parts.forEach(part -> part.join(this));
    }

    private void remove(Schedule member) {
        members.remove(member);
        open.remove(member);
        refused.remove(member);
    }

    public void refused(Schedule member) {
        open.remove(member);
        refused.add(member);
    }

    public void answered(Schedule member) {
        open.remove(member);
        refused.remove(member);
    }

    /** The members that are to be read together again: all that are answered, once all is known; else none. */
    public List<Schedule> apart() {
        if (joinedOnce || !open.isEmpty() || refused.isEmpty()) {
            return List.of();
        }
        List<Schedule> answered =
                members.stream().filter(member -> !refused.contains(member)).toList();
        return runs().size() < answered.size() ? answered : List.of();
    }

    /** What they are to be read as. */
    public List<ReadBlock> runs() {
        List<SitePoint> gone = refused.stream()
                .map(member -> member.block().points())
                .flatMap(Collection::stream)
                .toList();
        return whole.around(gone);
    }

    public void joined(List<Schedule> apart, List<Schedule> runs) {
        joinedOnce = true;
        apart.forEach(this::remove);
        members.addAll(runs);
        open.addAll(runs);
        runs.forEach(run -> run.join(this));
    }
}
