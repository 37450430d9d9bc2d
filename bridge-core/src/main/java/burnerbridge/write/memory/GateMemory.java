package burnerbridge.write.memory;

import burnerbridge.site.PointId;
import burnerbridge.write.store.DamagedFileException;
import burnerbridge.write.store.Disk;
import burnerbridge.write.store.Fields;
import burnerbridge.write.store.SealedFile;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.UnaryOperator;

/**
 * What must survive a restart, point by point, in one small file. Every change replaces the file as a whole and is on the
 * disk for good when it returns; where it fails, what is remembered here stays as it was, and the disk has either. Safe
 * for any number of threads.
 *
 * <p>A memory that is damaged, gone, or an older one of its own is never taken for an empty one, which would give spent
 * writes back: each change counts up its generation, the audit names the generation in every record of a write, and a
 * memory below that is refused. Counting the writes of the audit instead would not do: its oldest files are taken away.
 */
public final class GateMemory {
    private static final String FILE = "gate-memory";
    private static final int VERSION = 1;

    private final SealedFile file;
    private final Map<String, PointMemory> points = new TreeMap<>();
    private long generation;

    private GateMemory(SealedFile file, long generation, Map<String, PointMemory> points) {
        this.file = file;
        this.generation = generation;
        this.points.putAll(points);
    }

    /**
     * Reads it, or begins an empty one where there never was any.
     *
     * @param atLeast the highest generation that the audit names; 0 where it names none
     * @throws IOException where it cannot be read, is damaged, missing, or older than that; its message is for people
     */
    public static GateMemory open(Disk disk, long atLeast) throws IOException {
        SealedFile file = new SealedFile(disk, FILE, VERSION);
        Optional<GateMemory> read = file.read(content -> read(file, content));
        if (read.isEmpty() && atLeast > 0) {
            throw new DamagedFileException("the file " + FILE + " is missing: the audit names its state " + atLeast
                    + ", and without it nobody knows how many writes were spent");
        }
        if (read.isPresent() && read.get().generation < atLeast) {
            throw new DamagedFileException("the file " + FILE + " is an old one: it has state " + read.get().generation
                    + ", and the audit names state " + atLeast
                    + "; writes that were spent since then would be given back");
        }
        return read.orElseGet(() -> new GateMemory(file, 0, Map.of()));
    }

    /**
     * Begins another one in the place of one that cannot be had any more. A person must have said how many writes were
     * spent.
     *
     * @param above the highest generation that the audit names
     * @param points what is to be remembered from now on
     */
    public static GateMemory anew(Disk disk, long above, Map<PointId, PointMemory> points) throws IOException {
        GateMemory memory = new GateMemory(new SealedFile(disk, FILE, VERSION), above, Map.of());
        memory.change(points);
        return memory;
    }

    private static GateMemory read(SealedFile file, SealedFile.Content content) {
        Map<String, PointMemory> points = new LinkedHashMap<>();
        for (Fields row : content.rows()) {
            if (points.put(row.text("point"), point(row)) != null) {
                throw new IllegalArgumentException(row.text("point") + " is there twice");
            }
        }
        return new GateMemory(file, content.head().whole("generation"), points);
    }

    private static PointMemory point(Fields row) {
        Optional<PointMemory.Asleep> asleep = row.has("asleep")
                ? Optional.of(
                        new PointMemory.Asleep(row.text("asleep"), instant(row.text("since")), row.flag("believed")))
                : Optional.empty();
        Optional<BigDecimal> written = row.has("written") ? Optional.of(row.number("written")) : Optional.empty();
        return new PointMemory(row.whole("spent"), row.flag("owed"), asleep, written);
    }

    private static Instant instant(String text) {
        try {
            return Instant.parse(text);
        } catch (DateTimeException e) {
            throw new IllegalArgumentException("'since' is no time (was " + text + ")", e);
        }
    }

    /** What is known of a point. */
    public synchronized PointMemory of(PointId point) {
        return points.getOrDefault(point.toString(), PointMemory.NONE);
    }

    /** All of which something is known, by the texts of their ids. */
    public synchronized Map<String, PointMemory> all() {
        return Map.copyOf(points);
    }

    /** Which state of it is on the disk, or a later one; for the audit. */
    public synchronized long generation() {
        return generation;
    }

    /**
     * One more write of a point, on the disk for good before the first byte leaves.
     *
     * @return how many are spent now
     */
    public synchronized long debit(PointId point) throws IOException {
        return change(point, PointMemory::debited).spent();
    }

    /** Changes what is known of a point; nothing is written where it stays the same. */
    public synchronized PointMemory change(PointId point, UnaryOperator<PointMemory> change) throws IOException {
        PointMemory now = change.apply(of(point));
        change(Map.of(point, now));
        return now;
    }

    /**
     * Changes what is known of several points at once.
     *
     * @throws IllegalArgumentException where a point would have spent less than it has
     */
    public synchronized void change(Map<PointId, PointMemory> changes) throws IOException {
        Map<String, PointMemory> all = new TreeMap<>(points);
        changes.forEach((point, memory) -> {
            if (memory.spent() < of(point).spent()) {
                throw new IllegalArgumentException(point + " has spent "
                        + of(point).spent() + " writes, which are not given back (was " + memory.spent() + ")");
            }
            all.put(point.toString(), memory);
        });
        if (all.equals(points)) {
            return;
        }
        // Counted up even where it fails: the disk may have it then, and another content needs another generation.
        generation = Math.addExact(generation, 1);
        file.write(Map.of("generation", BigDecimal.valueOf(generation)), rows(all));
        points.putAll(all);
    }

    private static List<Map<String, Object>> rows(Map<String, PointMemory> all) {
        List<Map<String, Object>> rows = new ArrayList<>();
        all.forEach((point, memory) -> {
            Map<String, Object> row = new LinkedHashMap<>();
            row.put("point", point);
            row.put("spent", BigDecimal.valueOf(memory.spent()));
            row.put("owed", memory.owed());
            memory.asleep().ifPresent(asleep -> {
                row.put("asleep", asleep.reason());
                row.put("since", asleep.since().toString());
                row.put("believed", asleep.believed());
            });
            memory.written().ifPresent(value -> row.put("written", value));
            rows.add(row);
        });
        return rows;
    }
}
