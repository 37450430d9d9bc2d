package burnerbridge.write.memory;

import burnerbridge.site.AddressRange;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.guard.PhysicalUnit;
import burnerbridge.site.guard.Place;
import burnerbridge.site.guard.Protected;
import burnerbridge.write.store.DamagedFileException;
import burnerbridge.write.store.Disk;
import burnerbridge.write.store.Fields;
import burnerbridge.write.store.SealedFile;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * What was ever protected in a unit, which stays so: neither another role of its row, nor another list, nor another name
 * of its line frees it. Safe for any number of threads.
 *
 * <p>Places are remembered, not how the tables lie: that tables were once not stated to be separate is forgotten when
 * they are, as otherwise nothing could ever be permitted in a unit that was described step by step. The approval names
 * that change.
 */
public final class Ratchet {
    private static final String FILE = "ratchet";
    private static final int VERSION = 1;
    /** Between the identities of controllers that share a unit; no identity has it. */
    private static final String JOINT = "\u001f";
    /** More than any site has; a device that says another serial number at each question must not fill the disk. */
    private static final int MOST_UNITS = 4_096;

    private static final int MOST_RANGES = 200_000;

    private final SealedFile file;
    private final Map<Key, List<Place>> entries = new TreeMap<>();
    private final int mostUnits;
    private final int mostRanges;
    private long generation;

    /** @param identity of the controllers in the unit; empty where it was not known */
    private record Key(Name line, int unit, String identity) implements Comparable<Key> {
        private static final Comparator<Key> ORDER =
                Comparator.comparing(Key::line).thenComparingInt(Key::unit).thenComparing(Key::identity);

        static Key of(PhysicalUnit unit, String identity) {
            return new Key(unit.line(), unit.unit().number(), identity);
        }

        @Override
        public int compareTo(Key other) {
            return ORDER.compare(this, other);
        }

        boolean isIn(PhysicalUnit other) {
            return line.equals(other.line()) && unit == other.unit().number();
        }

        boolean appliesTo(PhysicalUnit other, String others) {
            boolean same = identity.equals(others) || !Collections.disjoint(each(identity), each(others));
            return isIn(other) ? same || identity.isEmpty() || others.isEmpty() : same && !identity.isEmpty();
        }

        /** Of controllers that share a unit one alone is enough, whoever else lives there by now. */
        private static List<String> each(String joined) {
            return List.of(joined.split(JOINT, -1));
        }

        String where() {
            return "unit " + unit + " of line " + line
                    + (identity.isEmpty() ? "" : " with identity " + identity.replace(JOINT, " and "));
        }
    }

    private Ratchet(SealedFile file, long generation, Map<Key, List<Place>> entries, int mostUnits, int mostRanges) {
        this.mostUnits = mostUnits;
        this.mostRanges = mostRanges;
        this.file = file;
        this.generation = generation;
        this.entries.putAll(entries);
    }

    /**
     * Reads it, or begins an empty one where there never was any.
     *
     * @param atLeast the highest generation that the audit names; 0 where it names none
     * @throws IOException where it cannot be read, is damaged, missing, or older than that; its message is for people
     */
    public static Ratchet open(Disk disk, long atLeast) throws IOException {
        return open(disk, atLeast, MOST_UNITS, MOST_RANGES);
    }

    static Ratchet open(Disk disk, long atLeast, int mostUnits, int mostRanges) throws IOException {
        SealedFile file = new SealedFile(disk, FILE, VERSION);
        Optional<Ratchet> read = file.read(content ->
                new Ratchet(file, content.head().whole("generation"), entries(content), mostUnits, mostRanges));
        long found = read.map(ratchet -> ratchet.generation).orElse(0L);
        if (found < atLeast) {
            throw new DamagedFileException("the file " + FILE + (read.isEmpty() ? " is missing" : " is an old one")
                    + ": the audit names its state " + atLeast + " (was " + found
                    + "), and without it addresses that were once protected would be free");
        }
        return read.orElseGet(() -> new Ratchet(file, 0, Map.of(), mostUnits, mostRanges));
    }

    /** Begins another one in the place of one that cannot be had any more; what is protected now is all that it knows. */
    public static Ratchet anew(Disk disk, long above) throws IOException {
        Ratchet ratchet = new Ratchet(
                new SealedFile(disk, FILE, VERSION), Math.addExact(above, 1), Map.of(), MOST_UNITS, MOST_RANGES);
        ratchet.write(ratchet.entries);
        return ratchet;
    }

    /** The identity of a unit: those of all its controllers in their order; empty where one is not known. */
    public static String joined(List<String> identities) {
        return identities.stream().anyMatch(String::isEmpty)
                ? ""
                : identities.stream().map(Ratchet::plain).collect(Collectors.joining(JOINT));
    }

    private static String plain(String identity) {
        return identity.replaceAll("\\p{Cntrl}", "?");
    }

    private static Map<Key, List<Place>> entries(SealedFile.Content content) {
        Map<Key, List<Place>> entries = new TreeMap<>();
        for (Fields row : content.rows()) {
            Key key = new Key(new Name(row.text("line")), unit(row.whole("unit")), row.text("identity"));
            List<Place> places = new ArrayList<>();
            for (RegisterTable table : RegisterTable.values()) {
                if (row.has(table.word())) {
                    row.texts(table.word()).forEach(text -> places.add(place(table, text)));
                }
            }
            if (entries.put(key, merged(places)) != null) {
                throw new IllegalArgumentException(key.where() + " is there twice");
            }
        }
        return entries;
    }

    private static int unit(long number) {
        return new UnitId((int) Math.max(-1, Math.min(256, number))).number();
    }

    private static Place place(RegisterTable table, String text) {
        String[] parts = text.split("[./]+", -1);
        if (parts.length < 2 || parts.length > 3) {
            throw new IllegalArgumentException("'" + text + "' is no range");
        }
        AddressRange range = new AddressRange(table, Integer.parseInt(parts[0]), Integer.parseInt(parts[1]));
        return parts.length == 2 ? Place.whole(range) : new Place(range, Integer.parseInt(parts[2], 16));
    }

    private static String text(Place place) {
        String range = place.range().first() + ".." + place.range().last();
        return place.equals(Place.whole(place.range())) ? range : range + "/" + Integer.toHexString(place.mask());
    }

    /**
     * Remembers all that a guard protects; when it returns, that is on the disk for good.
     *
     * @param identity as {@link #joined} makes it
     * @throws IOException where it cannot be written, or there is no place for more; then nothing may be written to the
     *     unit
     */
    public synchronized void remember(PhysicalUnit unit, String identity, Guard guard) throws IOException {
        remember(unit, identity, guard.entries().stream().map(Protected::place).toList());
    }

    private void remember(PhysicalUnit unit, String identity, List<Place> places) throws IOException {
        Key key = Key.of(unit, identity);
        List<Place> before = entries.getOrDefault(key, List.of());
        List<Place> all = new ArrayList<>(before);
        all.addAll(places);
        List<Place> now = merged(all);
        if (now.equals(before)) {
            return;
        }
        Map<Key, List<Place>> more = new TreeMap<>(entries);
        more.put(key, now);
        require("units", more.size(), mostUnits);
        require("ranges", more.values().stream().mapToInt(List::size).sum(), mostRanges);
        generation = Math.addExact(generation, 1);
        write(more);
        entries.put(key, now);
    }

    private static void require(String what, int count, int most) throws IOException {
        if (count > most) {
            throw new IOException("the file " + FILE + " has place for " + most + " " + what + " (was " + count
                    + "): what is protected cannot be remembered");
        }
    }

    private void write(Map<Key, List<Place>> all) throws IOException {
        file.write(
                Map.of("generation", BigDecimal.valueOf(generation)),
                all.entrySet().stream()
                        .map(entry -> row(entry.getKey(), entry.getValue()))
                        .toList());
    }

    private static Map<String, Object> row(Key key, List<Place> places) {
        Map<String, Object> row = new LinkedHashMap<>();
        row.put("line", key.line().text());
        row.put("unit", BigDecimal.valueOf(key.unit()));
        row.put("identity", key.identity());
        for (RegisterTable table : RegisterTable.values()) {
            List<String> texts = places.stream()
                    .filter(place -> place.range().table() == table)
                    .map(Ratchet::text)
                    .toList();
            if (!texts.isEmpty()) {
                row.put(table.word(), texts);
            }
        }
        return row;
    }

    /** The same bits in as few places as there can be, in a fixed order. */
    private static List<Place> merged(List<Place> places) {
        List<Place> merged = new ArrayList<>();
        for (RegisterTable table : RegisterTable.values()) {
            TreeMap<Integer, List<Place>> begin = new TreeMap<>();
            TreeMap<Integer, List<Place>> end = new TreeMap<>();
            for (Place place : places) {
                if (place.range().table() == table) {
                    begin.computeIfAbsent(place.range().first(), at -> new ArrayList<>())
                            .add(place);
                    end.computeIfAbsent(place.range().last() + 1, at -> new ArrayList<>())
                            .add(place);
                }
            }
            merge(table, begin, end, merged);
        }
        return merged;
    }

    /** Between two neighbouring bounds every address has the same bits. */
    private static void merge(
            RegisterTable table, Map<Integer, List<Place>> begin, Map<Integer, List<Place>> end, List<Place> merged) {
        TreeSet<Integer> bounds = new TreeSet<>(begin.keySet());
        bounds.addAll(end.keySet());
        int[] covering = new int[Integer.SIZE];
        int first = 0;
        for (int bound : bounds) {
            int mask = mask(covering);
            if (mask != 0) {
                join(merged, new Place(new AddressRange(table, first, bound - 1), mask));
            }
            end.getOrDefault(bound, List.of()).forEach(place -> count(covering, place, -1));
            begin.getOrDefault(bound, List.of()).forEach(place -> count(covering, place, 1));
            first = bound;
        }
    }

    private static void count(int[] covering, Place place, int change) {
        for (int bit = 0; bit < covering.length; bit++) {
            covering[bit] += (place.mask() >> bit & 1) * change;
        }
    }

    private static int mask(int[] covering) {
        int mask = 0;
        for (int bit = 0; bit < covering.length; bit++) {
            mask |= covering[bit] > 0 ? 1 << bit : 0;
        }
        return mask;
    }

    private static void join(List<Place> merged, Place next) {
        if (!merged.isEmpty()) {
            Place last = merged.get(merged.size() - 1);
            AddressRange range = last.range();
            if (range.table() == next.range().table()
                    && range.last() + 1 == next.range().first()
                    && last.mask() == next.mask()) {
                merged.set(
                        merged.size() - 1,
                        new Place(
                                new AddressRange(
                                        range.table(),
                                        range.first(),
                                        next.range().last()),
                                last.mask()));
                return;
            }
        }
        merged.add(next);
    }

    /**
     * What was once protected and concerns a unit now: all that was remembered of it with this identity, with that of one
     * of several controllers in it, or with none, and all that was remembered of these elsewhere; where the identity is not known, all that was ever remembered of
     * the unit.
     *
     * @param identity as {@link #joined} makes it
     */
    public synchronized List<Protected> of(PhysicalUnit unit, String identity) {
        List<Protected> all = new ArrayList<>();
        entries.forEach((key, places) -> {
            if (key.appliesTo(unit, identity)) {
                places.forEach(
                        place -> all.add(new Protected(place, place + ", which was once protected in " + key.where())));
            }
        });
        return List.copyOf(all);
    }

    /** Which state of it is on the disk, or a later one; for the audit. */
    public synchronized long generation() {
        return generation;
    }
}
