package burnerbridge.derive;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.table.ChangeFeed;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.State;
import burnerbridge.table.ValueTable;
import java.util.List;
import java.util.Optional;

/**
 * Keeps the counts of groups, and whether all of a group answer. Stepped: {@link #step} takes in what changed
 * and says when the next is due. One thread steps it.
 */
public final class GroupCounts {
    static final long PAUSE = 200_000_000L;
    /** Counts grow no older than what they count, so they are made anew though nothing changed. */
    static final long LONGEST = 1_000_000_000L;

    private final ValueTable table;
    private final List<ControllerDefinition> groups;
    private final List<Count> counts;
    private final ChangeFeed feed;
    private long last;
    private boolean begun;

    /** @param table with the groups among its controllers */
    public GroupCounts(ValueTable table) {
        this.table = table;
        this.groups = table.controllers().stream()
                .filter(ControllerDefinition::isGroup)
                .toList();
        this.counts = table.points().stream()
                .filter(point -> point.controller().isGroup())
                .map(point -> new Count(point, table))
                .toList();
        this.feed = table.subscribe();
    }

    /** Takes in what changed by a tick; returns the tick at which the next step is due. */
    public long step(long nowTicks) {
        boolean changed = !feed.drain().isEmpty();
        if (changed || !begun || nowTicks - last >= LONGEST) {
            counts.forEach(count -> table.publish(count.point(), count.reading()));
            groups.forEach(group -> link(group).ifPresent(link -> table.publish(group, link)));
            last = nowTicks;
            begun = true;
        }
        return nowTicks + PAUSE;
    }

    /** Down where one of them is; up where all are; until then unknown. */
    private Optional<ControllerLink> link(ControllerDefinition group) {
        for (ControllerDefinition member : group.members()) {
            ControllerLink link = table.link(member);
            if (link.state() == State.DOWN && link.since() != null) {
                return Optional.of(ControllerLink.down(link.cause(), member.name() + " does not answer", link.since()));
            }
        }
        return group.members().stream().allMatch(member -> table.link(member).state() == State.UP)
                ? group.members().stream()
                        .map(member -> table.link(member).since())
                        .reduce((one, other) -> one.ticks() - other.ticks() > 0 ? one : other)
                        .map(ControllerLink::up)
                : Optional.empty();
    }
}
