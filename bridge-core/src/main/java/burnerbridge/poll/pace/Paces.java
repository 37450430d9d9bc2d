package burnerbridge.poll.pace;

import burnerbridge.site.ControllerDefinition;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/** Counts how the reads of a line are made. The line's thread counts; any may look. */
public final class Paces {
    private final Map<Key, Group> groups = new LinkedHashMap<>();
    private final Usage usage;

    public Paces(long now) {
        this.usage = new Usage(now);
    }

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
                    controller,
                    every,
                    members.size(),
                    scan(),
                    achieved(now),
                    skipped,
                    requests,
                    Duration.ofNanos(busTime));
        }

        Optional<Duration> scan() {
            boolean whole = !members.isEmpty() && members.stream().allMatch(member -> member.turn.isPresent());
            return whole
                    ? Optional.of(Duration.ofNanos(members.stream()
                            .mapToLong(member -> member.turn.getAsLong())
                            .sum()))
                    : Optional.empty();
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
        private OptionalLong turn = OptionalLong.empty();
        private long soFar;

        private Pace(Group group) {
            this.group = group;
        }

        /**
         * A request was made that took the line for some nanoseconds.
         *
         * @param first whether it begins a turn, which may take several
         */
        public void asked(long took, boolean first, long now) {
            synchronized (Paces.this) {
                group.requests++;
                group.busTime += took;
                usage.add(took, now);
                soFar = (first ? 0 : soFar)
                        + took
                        + group.controller.type().rules().pause().toNanos();
            }
        }

        public void skipped(long turns) {
            synchronized (Paces.this) {
                group.skipped += turns;
            }
        }

        /** The controller refused it, which took as long as it took. */
        public void refused() {
            synchronized (Paces.this) {
                turnTaken();
            }
        }

        private void turnTaken() {
            turn = OptionalLong.of(turn.isEmpty() ? soFar : towards(turn.getAsLong(), soFar));
        }

        /** It brought its values. */
        public void answered(long now) {
            synchronized (Paces.this) {
                turnTaken();
                if (answeredAt.isPresent()) {
                    long gap = now - answeredAt.getAsLong();
                    mean = OptionalLong.of(towards(mean.orElse(gap), gap));
                }
                answeredAt = OptionalLong.of(now);
            }
        }

        private static long towards(long before, long newer) {
            return before + (newer - before) / WEIGHT;
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

    /** Something that is no read of the plan took the line for some nanoseconds. */
    public synchronized void otherwise(long took, long now) {
        usage.add(took, now);
    }

    /** The share of the time of late for which the line was taken up; empty at the start. For any thread. */
    public synchronized OptionalDouble load(long now) {
        return usage.share(now);
    }

    /** As it stands at a tick, in the order in which the reads began. For any thread; a snapshot. */
    public synchronized List<IntervalPace> at(long now) {
        return groups.values().stream().map(group -> group.pace(now)).toList();
    }
}
