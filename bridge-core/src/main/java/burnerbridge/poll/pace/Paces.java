package burnerbridge.poll.pace;

import burnerbridge.site.ControllerDefinition;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/** Counts how the reads of a line are made. The line's thread counts; any may look. */
public final class Paces {
    private final Map<Key, Group> groups = new LinkedHashMap<>();

    private record Key(int controller, Duration every) {}

    /** All reads of one interval of one controller. */
    private static final class Group {
        final ControllerDefinition controller;
        final Duration every;
        final List<Pace> members = new ArrayList<>();
        long skipped;
        long requests;
        long busTime;

        Group(ControllerDefinition controller, Duration every) {
            this.controller = controller;
            this.every = every;
        }

        IntervalPace pace(long now) {
            return new IntervalPace(
                    controller, every, members.size(), achieved(now), skipped, requests, Duration.ofNanos(busTime));
        }

        Optional<Duration> achieved(long now) {
            List<Long> gaps = members.stream()
                    .map(member -> member.gap(now))
                    .flatMapToLong(OptionalLong::stream)
                    .boxed()
                    .toList();
            return gaps.isEmpty()
                    ? Optional.empty()
                    : Optional.of(Duration.ofNanos((long)
                            gaps.stream().mapToLong(Long::longValue).average().orElseThrow()));
        }
    }

    /** What one read adds to the counts. */
    public final class Pace {
        /** A newer gap between two answers counts for one part in so many. */
        private static final int WEIGHT = 4;

        private final Group group;
        private OptionalLong answeredAt = OptionalLong.empty();
        private OptionalLong mean = OptionalLong.empty();

        private Pace(Group group) {
            this.group = group;
        }

        /** A request was made that took the line for some nanoseconds. */
        public void asked(long took) {
            synchronized (Paces.this) {
                group.requests++;
                group.busTime += took;
            }
        }

        public void skipped(long turns) {
            synchronized (Paces.this) {
                group.skipped += turns;
            }
        }

        /** It brought its values. */
        public void answered(long now) {
            synchronized (Paces.this) {
                if (answeredAt.isPresent()) {
                    long gap = now - answeredAt.getAsLong();
                    long before = mean.orElse(gap);
                    mean = OptionalLong.of(before + (gap - before) / WEIGHT);
                }
                answeredAt = OptionalLong.of(now);
            }
        }

        /** Nothing can be measured over a time in which the controller or the line was lost. */
        public void interrupted() {
            synchronized (Paces.this) {
                answeredAt = OptionalLong.empty();
            }
        }

        /** The read is no more; what it added stays. */
        public void leave() {
            synchronized (Paces.this) {
                group.members.remove(this);
            }
        }

        private OptionalLong gap(long now) {
            if (mean.isEmpty() || answeredAt.isEmpty()) {
                return mean;
            }
            return OptionalLong.of(Math.max(mean.getAsLong(), now - answeredAt.getAsLong()));
        }
    }

    /** A read begins to be counted. */
    public synchronized Pace join(ControllerDefinition controller, Duration every) {
        Group group = groups.computeIfAbsent(new Key(controller.ordinal(), every), key -> new Group(controller, every));
        Pace pace = new Pace(group);
        group.members.add(pace);
        return pace;
    }

    /** As it stands at a tick, in the order in which the reads began. For any thread; a snapshot. */
    public synchronized List<IntervalPace> at(long now) {
        return groups.values().stream().map(group -> group.pace(now)).toList();
    }
}
