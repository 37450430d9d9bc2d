package burnerbridge.daemon;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What a BACnet station was told of stamped points, what of it cannot be right, and what it wrote. */
final class ToldStation {
    static final String FILE = "station";
    private static final String ACCEPTED = "accepted";
    /** How the station was told of a value, and how old one may be then in milliseconds: read every second, and under way. */
    private static final Map<String, Long> OLDEST = Map.of(
            "unconfirmed", 5_000L,
            // Sent up to three times in 18 s.
            "confirmed", 22_000L,
            // As long as the station waits for all segments.
            "read", 15_000L);

    private static final Pattern VALUE = Pattern.compile("\\{\"at\":(?<at>\\d+),\"how\":\"(?<how>\\w+)\","
            + "\"object\":\"(?<object>[\\d:]+)\",\"value\":(?<value>\\d+),\"flags\":\"(?<flags>[01]{4})\"\\}");
    private static final Pattern WRITE = Pattern.compile(
            "\\{\"at\":(?<at>\\d+),\"how\":\"write\",\"value\":(?<value>\\d+),\"answer\":\"(?<answer>.*)\"\\}");
    private static final Pattern UNANSWERED =
            Pattern.compile("\\{\"at\":\\d+,\"how\":\"(unanswered)\",\"what\":\"(?<what>\\w+)\"\\}");
    private static final long TENTH = 100;

    private final Map<String, Integer> keys = new HashMap<>();
    private final List<Integer> demands;
    private final long begin;
    private final List<Told> all = new ArrayList<>();
    private final List<String> wrong = new ArrayList<>();
    private final Map<String, Long> counts = new TreeMap<>();
    private final Map<String, Long> ages = new TreeMap<>();
    private int lastAsked;
    private int lastAccepted;
    private long lastAcceptedAt;

    /** @param way of the object and by which kind of message */
    private record Told(long at, String way, long stamp) {}

    private ToldStation(Path folder, long begin) throws IOException {
        this.begin = begin;
        for (String line : Files.readAllLines(folder.resolve(PoorlyConnectedPlant.OBJECTS))) {
            String[] words = line.split(" ", -1);
            if (words.length == 2) {
                keys.put(words[0], Integer.valueOf(words[1]));
            }
        }
        demands = Files.readAllLines(folder.resolve(PoorlyConnectedPlant.DEMANDS)).stream()
                .map(Integer::valueOf)
                .toList();
        String text = Files.readString(folder.resolve(FILE));
        // The last line may be half there.
        text.substring(0, text.lastIndexOf('\n') + 1).lines().forEach(this::take);
    }

    /** @param begin in milliseconds of the epoch, from which all others count here */
    static ToldStation of(Path folder, long begin) {
        try {
            return new ToldStation(folder, begin);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void take(String line) {
        Matcher value = VALUE.matcher(line);
        Matcher write = WRITE.matcher(line);
        Matcher unanswered = UNANSWERED.matcher(line);
        if (value.matches()) {
            judge(line, value);
        } else if (write.matches()) {
            takeWrite(write);
        } else if (unanswered.matches()) {
            count("unanswered " + unanswered.group("what"));
        } else {
            wrong.add("not understood: " + line);
        }
    }

    private void judge(String line, Matcher matcher) {
        String how = matcher.group("how");
        if (!matcher.group("flags").equals("0000")) {
            count(how + " not good");
            return;
        }
        count(how);
        long value = Long.parseLong(matcher.group("value"));
        long at = Long.parseLong(matcher.group("at")) - begin;
        long age = at - StampedUnits.millis(value);
        ages.merge(how, age, Math::max);
        if (!Objects.equals(keys.get(matcher.group("object")), StampedUnits.key(value))) {
            wrong.add("of another point: " + line);
        }
        if (age < -TENTH || age > Objects.requireNonNull(OLDEST.get(how))) {
            wrong.add("of another time, by " + age + " ms: " + line);
        }
        all.add(new Told(at, how + " " + matcher.group("object"), StampedUnits.millis(value)));
    }

    private void takeWrite(Matcher matcher) {
        int value = Integer.parseInt(matcher.group("value"));
        lastAsked = value;
        if (matcher.group("answer").equals(ACCEPTED)) {
            count("write accepted");
            lastAccepted = value;
            lastAcceptedAt = Long.parseLong(matcher.group("at")) - begin;
        } else {
            // It may have come all the same.
            count("write " + matcher.group("answer"));
        }
    }

    private void count(String what) {
        counts.merge(what, 1L, Long::sum);
    }

    List<String> wrong() {
        return wrong;
    }

    /** The newest demand that the station has had an answer to, or has given up to wait for one. */
    int lastAsked() {
        return lastAsked;
    }

    /** Whether a demand was accepted after a moment, and it or a later one was written. */
    boolean isLastWriteDone(long moment) {
        return lastAcceptedAt >= moment && !demands.isEmpty() && demands.get(demands.size() - 1) >= lastAccepted;
    }

    /** Objects that the station was not told of as they were after a moment, by each kind of message. */
    List<String> missingSince(long moment) {
        Map<String, Long> newest = new HashMap<>();
        all.forEach(told -> newest.put(told.way(), told.stamp()));
        return keys.keySet().stream()
                .flatMap(object -> OLDEST.keySet().stream().map(how -> how + " " + object))
                .filter(way -> newest.getOrDefault(way, Long.MIN_VALUE) < moment)
                .sorted()
                .toList();
    }

    /** What came within a time after something newer, by the same kind of message. */
    List<Object> backwards(long from, long until) {
        List<Object> backwards = new ArrayList<>();
        Map<String, Long> newest = new HashMap<>();
        all.stream().filter(told -> told.at() >= from && told.at() < until).forEach(told -> {
            if (newest.getOrDefault(told.way(), Long.MIN_VALUE) > told.stamp()) {
                backwards.add(told);
            }
            newest.put(told.way(), told.stamp());
        });
        return backwards;
    }

    String counts() {
        return "by BACnet " + counts + ", oldest in ms " + ages + ", after a newer one "
                + backwards(0, Long.MAX_VALUE).size();
    }
}
