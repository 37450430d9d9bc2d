package burnerbridge.config.yaml;

import burnerbridge.config.problem.Durations;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.site.Name;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/**
 * One mapping of a YAML file, read key by key. What is wrong becomes a problem at its line and column,
 * and the answer is empty.
 */
public final class YamlMap {
    private final String file;
    private final String path;
    private final Place place;
    private final Problems problems;
    private final Map<String, Entry> entries = new LinkedHashMap<>();
    private final Map<String, YamlMap> maps = new HashMap<>();

    /** A key and what it holds. */
    private record Entry(Node key, Node value) {}

    YamlMap(String file, String path, MappingNode node, Problems problems) {
        this.file = file;
        this.path = path;
        this.place = place(file, node);
        this.problems = problems;
        for (NodeTuple tuple : node.getValue()) {
            add(tuple);
        }
    }

    private void add(NodeTuple tuple) {
        if (!(tuple.getKeyNode() instanceof ScalarNode key)) {
            problems.error(place(file, tuple.getKeyNode()), path("a key must be a word"));
        } else if (entries.put(key.getValue(), new Entry(key, tuple.getValueNode())) != null) {
            problems.error(place(file, key), path(key.getValue()) + ": stands here twice");
        }
    }

    public static Place place(String file, Node node) {
        Optional<Mark> mark = node.getStartMark();
        return new Place(
                file,
                mark.map(m -> m.getLine() + 1).orElse(0),
                mark.map(m -> m.getColumn() + 1).orElse(0));
    }

    /** A key with those above it: {@code mqtt.tls.ca}. */
    public String path(String key) {
        return path.isEmpty() ? key : path + "." + key;
    }

    public Place place() {
        return place;
    }

    /** Where the value of a key stands; the mapping itself where the key is absent. */
    public Place placeOf(String key) {
        Entry entry = entries.get(key);
        return entry == null ? place : place(file, entry.value());
    }

    public Set<String> keys() {
        return entries.keySet();
    }

    public boolean has(String key) {
        return entries.containsKey(key);
    }

    /** Warns of the mapping as a whole. */
    public void warning(String message) {
        problems.warning(place, path.isEmpty() ? message : path + ": " + message);
    }

    public void error(String key, String message) {
        problems.error(placeOf(key), path(key) + ": " + message);
    }

    /** Complains of one value of a list. */
    public void error(String key, Item item, String message) {
        problems.error(item.place(), path(key) + ": " + message);
    }

    /** Complains of a key itself, rather than of what it holds. */
    public void errorAtKey(String key, String message) {
        Entry entry = entries.get(key);
        problems.error(entry == null ? place : place(file, entry.key()), path(key) + ": " + message);
    }

    public void warning(String key, String message) {
        problems.warning(placeOf(key), path(key) + ": " + message);
    }

    /** Whether a key holds keys and values of its own. */
    public boolean holdsMap(String key) {
        Entry entry = entries.get(key);
        return entry != null && entry.value() instanceof MappingNode;
    }

    /** Whether a key holds just this text; nothing is told where it does not. */
    public boolean holds(String key, String text) {
        Entry entry = entries.get(key);
        return entry != null
                && entry.value() instanceof ScalarNode scalar
                && scalar.getValue().equals(text);
    }

    /** Complains of keys that mean nothing here, and of those that a later version will know. */
    public void allowOnly(Set<String> known, Set<String> notYet) {
        entries.forEach((key, entry) -> {
            if (notYet.contains(key)) {
                problems.error(place(file, entry.key()), path(key) + ": is not supported by this version yet");
            } else if (!known.contains(key)) {
                problems.error(
                        place(file, entry.key()),
                        path(key) + ": is not known here (known: " + String.join(", ", known) + ")"
                                + NearestWord.hint(key, known));
            }
        });
    }

    public Optional<String> text(String key) {
        Entry entry = entries.get(key);
        if (entry == null) {
            return Optional.empty();
        }
        return scalar(key, entry.value());
    }

    private Optional<String> scalar(String key, Node value) {
        if (value instanceof ScalarNode scalar && !scalar.getTag().equals(Tag.NULL)) {
            return Optional.of(scalar.getValue());
        }
        problems.error(place(file, value), path(key) + ": must be a single value");
        return Optional.empty();
    }

    public Optional<String> requiredText(String key, String whatFor) {
        if (!has(key)) {
            problems.error(place, path(key) + ": is missing; " + whatFor);
        }
        return text(key);
    }

    public Optional<Name> name(String key, String whatFor) {
        return requiredText(key, whatFor).flatMap(text -> checkedName(text, placeOf(key), path(key)));
    }

    private Optional<Name> checkedName(String text, Place at, String what) {
        String objection = Name.objectionTo(text);
        if (!objection.isEmpty()) {
            problems.error(at, what + ": " + objection);
            return Optional.empty();
        }
        return Optional.of(new Name(text));
    }

    /** A whole number within bounds, both included; digits only, so that 010 is ten. */
    public OptionalInt integer(String key, int least, int most) {
        Optional<String> text = text(key);
        if (text.isEmpty()) {
            return OptionalInt.empty();
        }
        if (text.get().matches("\\d{1,9}")) {
            int number = Integer.parseInt(text.get());
            if (number >= least && number <= most) {
                return OptionalInt.of(number);
            }
        }
        error(key, "must be " + least + " to " + most + " (was " + text.get() + ")");
        return OptionalInt.empty();
    }

    public OptionalInt requiredInteger(String key, int least, int most, String whatFor) {
        if (!has(key)) {
            problems.error(place, path(key) + ": is missing; " + whatFor);
        }
        return integer(key, least, most);
    }

    public Optional<Duration> duration(String key, Duration least, Duration most) {
        Optional<String> text = text(key);
        Optional<Duration> duration = text.flatMap(Durations::parse);
        if (text.isPresent() && duration.isEmpty()) {
            error(key, "must be " + Durations.ALLOWED + " (was '" + text.get() + "')");
        }
        if (duration.isPresent()
                && (duration.get().compareTo(least) < 0 || duration.get().compareTo(most) > 0)) {
            error(
                    key,
                    "must be " + Durations.text(least) + " to " + Durations.text(most) + " (was '" + text.get() + "')");
            return Optional.empty();
        }
        return duration;
    }

    /** A word out of a closed list. */
    public Optional<String> word(String key, Set<String> allowed) {
        Optional<String> text = text(key);
        if (text.isPresent() && !allowed.contains(text.get())) {
            error(
                    key,
                    "must be one of " + String.join(", ", allowed) + " (was '" + text.get() + "')"
                            + NearestWord.hint(text.get(), allowed));
            return Optional.empty();
        }
        return text;
    }

    public Optional<YamlMap> map(String key) {
        Entry entry = entries.get(key);
        if (entry == null) {
            return Optional.empty();
        }
        if (entry.value() instanceof MappingNode node) {
            // Made once, so that what is wrong in it is told once.
            return Optional.of(maps.computeIfAbsent(key, k -> new YamlMap(file, path(k), node, problems)));
        }
        error(key, "must hold keys and values");
        return Optional.empty();
    }

    /** The mappings below a key by their names, each name checked. */
    public Map<Name, YamlMap> named(String key) {
        Map<Name, YamlMap> named = new LinkedHashMap<>();
        map(key).ifPresent(map -> map.entries.forEach((text, entry) -> {
            Optional<Name> name = map.checkedName(text, place(file, entry.key()), map.path(text));
            Optional<YamlMap> value = map.map(text);
            if (name.isPresent() && value.isPresent()) {
                named.put(name.get(), value.get());
            }
        }));
        return named;
    }

    /** The single values of a list; empty where the key is absent. */
    public List<String> texts(String key) {
        List<String> texts = new ArrayList<>();
        for (Node item : items(key)) {
            scalar(key, item).ifPresent(texts::add);
        }
        return texts;
    }

    /** A single value and where it stands. */
    public Optional<Item> item(String key) {
        return text(key).map(text -> new Item(text, placeOf(key)));
    }

    /** One single value of a list, and where it stands. */
    public record Item(String text, Place place) {}

    /** The same with their places. */
    public List<Item> listOf(String key) {
        List<Item> list = new ArrayList<>();
        for (Node item : items(key)) {
            scalar(key, item).ifPresent(text -> list.add(new Item(text, place(file, item))));
        }
        return list;
    }

    /**
     * The mappings of a list; what else is in it is told.
     *
     * @param named which of their keys stands for each in messages, where it holds what one would expect there; else
     *     its number does, from 1
     */
    public List<YamlMap> maps(String key, String named, Pattern expected) {
        List<YamlMap> list = new ArrayList<>();
        for (Node item : items(key)) {
            if (item instanceof MappingNode node) {
                String name = name(node, named, expected).orElse(Integer.toString(list.size() + 1));
                list.add(new YamlMap(file, path(key) + "." + name, node, problems));
            } else {
                problems.error(place(file, item), path(key) + ": must hold keys and values, each entry of it");
            }
        }
        return list;
    }

    private static Optional<String> name(MappingNode node, String key, Pattern expected) {
        return node.getValue().stream()
                .filter(tuple -> tuple.getKeyNode() instanceof ScalarNode word
                        && word.getValue().equals(key))
                .flatMap(tuple ->
                        tuple.getValueNode() instanceof ScalarNode text ? Stream.of(text.getValue()) : Stream.empty())
                .filter(text -> expected.matcher(text).matches())
                .findFirst();
    }

    /** Whether a key holds a list, of whatever. */
    public boolean holdsList(String key) {
        Entry entry = entries.get(key);
        return entry != null && entry.value() instanceof SequenceNode;
    }

    /** Whether the key is absent or its list empty. */
    public boolean isEmptyList(String key) {
        Entry entry = entries.get(key);
        return entry == null
                || (entry.value() instanceof SequenceNode list
                        && list.getValue().isEmpty());
    }

    private List<Node> items(String key) {
        Entry entry = entries.get(key);
        if (entry == null) {
            return List.of();
        }
        if (entry.value() instanceof SequenceNode sequence) {
            return sequence.getValue();
        }
        error(key, "must be a list");
        return List.of();
    }
}
