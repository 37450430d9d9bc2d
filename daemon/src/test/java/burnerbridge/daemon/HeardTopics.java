package burnerbridge.daemon;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/** What a subscriber beside the broker heard of stamped points, and what of it cannot be right. */
final class HeardTopics {
    static final String FILE = "heard";
    static final String RETAINED = "retained";
    /** What of a payload is looked at; a point that is not good has no number. */
    private static final Pattern GOOD = Pattern.compile("(?<seconds>\\d+)\\.(?<nanos>\\d+) (?<topic>\\S+)"
            + " \\{\"value\": ?(?<value>\\d+),.*\"quality\": ?\"good\",.*\"readAt\": ?\"(?<readAt>[^\"]+)\","
            + ".*\"sentAt\": ?\"(?<sentAt>[^\"]+)\".*\"sequence\": ?(?<sequence>\\d+).*");

    private static final Pattern POINT = Pattern.compile("\\S+ \\S+/stamp-\\d .*");
    /** A stamp is rounded down to it, and clocks are read one after the other. */
    private static final long TENTH = 100;
    /** The longest that a reply may take. */
    private static final long REPLY = 1_000;

    private final Map<String, Message> newest = new HashMap<>();
    private final List<String> wrong = new ArrayList<>();
    private final long begin;
    private long good;
    private long notGood;
    private long twice;
    private long oldest;

    private record Message(long sequence, long readAt, long stamp) {}

    private HeardTopics(long begin) {
        this.begin = begin;
    }

    /** @param begin in milliseconds of the epoch, from which all others count here */
    static HeardTopics of(Path file, long begin) {
        HeardTopics heard = new HeardTopics(begin);
        try {
            heard.take(Files.readString(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return heard;
    }

    private void take(String text) {
        // The last line may be half there.
        text.substring(0, text.lastIndexOf('\n') + 1).lines().forEach(this::takeLine);
    }

    private void takeLine(String line) {
        if (!POINT.matcher(line).matches()) {
            return;
        }
        Matcher matcher = GOOD.matcher(line);
        if (!matcher.matches()) {
            notGood++;
            return;
        }
        good++;
        judge(
                line,
                matcher.group("topic"),
                Long.parseLong(matcher.group("value")),
                Long.parseLong(matcher.group("seconds")) * 1000
                        + Long.parseLong(matcher.group("nanos").substring(0, 3))
                        - begin,
                new Message(
                        Long.parseLong(matcher.group("sequence")),
                        Instant.parse(matcher.group("readAt")).toEpochMilli() - begin,
                        Instant.parse(matcher.group("sentAt")).toEpochMilli() - begin));
    }

    private void judge(String line, String topic, long value, long heardAt, Message message) {
        long stamp = StampedUnits.millis(value);
        long sentAt = message.stamp();
        oldest = Math.max(oldest, heardAt - message.readAt());
        if (!topic.equals(StampedUnits.topic(StampedUnits.key(value)))) {
            wrong.add("of another point: " + line);
        }
        if (stamp < message.readAt() - 2 * TENTH || stamp > message.readAt() + REPLY + TENTH) {
            wrong.add("of another time than it says: " + line);
        }
        if (message.readAt() > sentAt || sentAt > heardAt + TENTH) {
            wrong.add("ahead of its time: " + line);
        }
        Message before = newest.get(topic);
        if (before != null && before.sequence() == message.sequence() && before.readAt() == message.readAt()) {
            twice++;
        } else if (before != null && (before.sequence() >= message.sequence() || before.readAt() > message.readAt())) {
            wrong.add("after a newer one: " + line);
        }
        newest.put(topic, new Message(message.sequence(), message.readAt(), stamp));
    }

    List<String> wrong() {
        return wrong;
    }

    /** Points of which the newest that was heard was read before a moment. */
    List<String> missingSince(long moment) {
        return IntStream.rangeClosed(1, StampedUnits.UNITS * StampedUnits.POINTS)
                .mapToObj(StampedUnits::topic)
                .filter(topic -> !newest.containsKey(topic) || newest.get(topic).stamp() < moment)
                .toList();
    }

    String counts() {
        return "by MQTT good " + good + ", not good " + notGood + ", twice " + twice + ", oldest " + oldest + " ms";
    }
}
