package burnerbridge.write.audit;

import burnerbridge.model.BridgeClock;
import burnerbridge.write.store.Disk;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The chain of what was asked and written, as it grows. Safe for any number of threads; each call that records waits for
 * the disk.
 *
 * <p>Where a call fails, nothing of its record stays, the chain ends where it did before, and the next call begins as if
 * there had been none. A record that was not forced may be lost in a power cut, the newest first; one that was forced has
 * all before it on the disk too.
 */
public final class AuditTrail implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(AuditTrail.class);
    /** What was not forced is after so long. */
    private static final long LONGEST_UNFORCED = Refusals.MINUTE;

    private final Disk disk;
    private final BridgeClock clock;
    private final AuditRules rules;
    private final Refusals refusals;
    private final List<String> damage;
    /** What the chain has to tell of itself before anything else is recorded. */
    private final List<AuditEntry> untold = new ArrayList<>();

    private Place place;
    private AuditHead forced;
    private long memory;
    private long ratchet;
    /** A file that may have more than it should; it is put right before anything is added. */
    private @Nullable String doubtful;

    private boolean unforced = true;
    private OptionalLong unforcedSince = OptionalLong.empty();
    private String trouble = "";

    /**
     * Where the chain ends.
     *
     * @param file that is added to; it may not be there yet
     * @param length of what belongs to the chain in it
     * @param records in it
     * @param newest the last record, in this file or the one before
     */
    private record Place(String file, long length, long records, AuditHead newest) {
        Place behind(AuditRecord.Line line) {
            return new Place(file, length + line.bytes().length, records + 1, line.head());
        }
    }

    private AuditTrail(Disk disk, BridgeClock clock, AuditRules rules, Opened opened) {
        this.disk = disk;
        this.clock = clock;
        this.rules = rules;
        this.refusals = new Refusals(rules.refusals());
        this.damage = List.copyOf(opened.damage);
        this.untold.addAll(opened.untold);
        this.place = opened.place;
        this.forced = opened.place.newest();
        this.memory = opened.memory;
        this.ratchet = opened.ratchet;
    }

    /** What was found of a chain. */
    private record Opened(Place place, List<String> damage, List<AuditEntry> untold, long memory, long ratchet) {}

    /** Opens with the usual rules. */
    public static AuditTrail open(Disk disk, BridgeClock clock) throws IOException {
        return open(disk, clock, AuditRules.USUAL);
    }

    /**
     * Reads all of a chain and goes on behind its last record, or begins one. What stands behind the last whole record, as
     * a power cut leaves it, is cut off; that, and every damage, is told by the next record that can be written, this call's
     * own if possible.
     */
    public static AuditTrail open(Disk disk, BridgeClock clock, AuditRules rules) throws IOException {
        AuditTrail trail = new AuditTrail(disk, clock, rules, found(disk));
        try {
            // A process that was killed may have left what only the system's memory has.
            trail.forceExisting();
            trail.tell();
            trail.force();
        } catch (IOException e) {
            trail.failed(e);
        }
        return trail;
    }

    private static Opened found(Disk disk) throws IOException {
        List<AuditFinding> findings = new ArrayList<>();
        long[] more = new long[1];
        ChainCheck check = new ChainCheck(
                finding -> {
                    if (findings.size() < AuditReport.MOST_FINDINGS) {
                        findings.add(finding);
                    } else {
                        more[0]++;
                    }
                },
                record -> {});
        List<String> files = AuditFiles.on(disk);
        List<AuditEntry> untold = new ArrayList<>();
        String newest = files.isEmpty() ? AuditFiles.name(1) : files.get(files.size() - 1);
        long length = 0;
        long before = 0;
        for (String file : files) {
            byte[] content = disk.read(file);
            before = check.count();
            length = check.follow(file, content, 0, 1);
            if (length < content.length && file.equals(newest)) {
                disk.truncate(file, length);
                untold.add(AuditEntry.of(AuditKind.TORN)
                        .file(file)
                        .said("the last line was not whole, as a power cut leaves it, and its "
                                + (content.length - length) + " bytes were cut off: "
                                + shown(Arrays.copyOfRange(content, Math.toIntExact(length), content.length))));
            } else if (length < content.length) {
                findings.add(new AuditFinding(file, 0, "its last line is not whole"));
            }
        }
        check.end();
        List<String> damage = findings.stream().map(AuditFinding::toString).toList();
        boolean inNewest = findings.stream().anyMatch(finding -> finding.file().equals(newest));
        if (!damage.isEmpty()) {
            String sentence = "the chain was not whole when it was opened: " + damage.get(0)
                    + (damage.size() > 1 ? "; and " + (damage.size() - 1 + more[0]) + " more" : "");
            LOG.warn("audit: {}", sentence);
            AuditEntry entry = AuditEntry.of(AuditKind.DAMAGED).said(sentence);
            // A damage that stays is not told again at every start.
            if (!entry.text(Detail.SENTENCE).equals(check.lastDamage())) {
                untold.add(entry);
            }
        }
        // What is damaged stays as it is, for whoever looks into it.
        Place place = inNewest
                ? new Place(AuditFiles.name(AuditFiles.number(newest) + 1), 0, 0, check.tip())
                : new Place(newest, length, check.count() - before, check.tip());
        return new Opened(place, damage, untold, check.memory(), check.ratchet());
    }

    private static String shown(byte[] torn) {
        return new String(torn, StandardCharsets.UTF_8).replaceAll("\\p{Cntrl}", "?");
    }

    /** What was wrong with the chain when it was opened, for people; empty where nothing was. */
    public List<String> damage() {
        return damage;
    }

    /** The highest state of the gate's memory that the chain names, which must still be there, or a newer one. */
    public synchronized long memory() {
        return memory;
    }

    /** The same of the ratchet. */
    public synchronized long ratchet() {
        return ratchet;
    }

    /**
     * The newest record that is on the disk for good. To be published: whoever keeps it elsewhere can see later whether
     * the chain still leads there.
     */
    public synchronized AuditHead head() {
        return forced;
    }

    /** Why the last attempt to record failed, for people; empty where it did not. */
    public synchronized Optional<String> trouble() {
        return trouble.isEmpty() ? Optional.empty() : Optional.of(trouble);
    }

    /**
     * Adds a record, which is forced a minute later, or with the next that is.
     *
     * @throws IOException where it cannot be, or the room that is kept for silence actions cannot be kept besides
     */
    public synchronized AuditHead record(AuditEntry entry) throws IOException {
        return tried(() -> {
            disk.keepReserve();
            return write(entry, false);
        });
    }

    /** The same, and when it returns, the record and all before it are on the disk for good. */
    public synchronized AuditHead recordForced(AuditEntry entry) throws IOException {
        return tried(() -> {
            disk.keepReserve();
            return write(entry, true);
        });
    }

    /** The same for a silence action alone: where there is no room, that which was kept is given up for it. */
    public synchronized AuditHead recordAtAnyCost(AuditEntry entry) throws IOException {
        return tried(() -> {
            AuditHead[] head = new AuditHead[1];
            disk.atAnyCost(() -> head[0] = write(entry, true));
            return head[0];
        });
    }

    /**
     * Records a refusal, or counts it where its kind was recorded already: the first of each source, point and question at
     * once, then a count a minute. It never fails: a refusal is one whether it can be recorded or not, and what cannot be
     * is counted until it can. Counts that were not recorded yet are lost when the process is killed.
     *
     * @param entry with source, point and decision
     */
    public synchronized void recordRefusal(AuditEntry entry) {
        long now = clock.ticks();
        refusals.refused(entry, now).ifPresent(first -> recordOrCount(first, now));
    }

    private void recordOrCount(AuditEntry entry, long now) {
        try {
            record(entry);
        } catch (IOException e) {
            LOG.debug("audit: {}", e.getMessage());
            refusals.notRecorded(entry, now);
        }
    }

    /**
     * Records the counts of refusals that are due, and forces what has waited for a minute.
     *
     * @return the tick at which it is next due
     */
    public synchronized long step(long now) {
        refusals.counts(now).forEach(entry -> recordOrCount(entry, now));
        if (unforcedSince.isPresent() && now - unforcedSince.getAsLong() >= LONGEST_UNFORCED) {
            try {
                force();
            } catch (IOException e) {
                failed(e);
                unforcedSince = OptionalLong.of(now);
            }
        }
        long next = now + LONGEST_UNFORCED;
        if (unforcedSince.isPresent() && unforcedSince.getAsLong() + LONGEST_UNFORCED - next < 0) {
            next = unforcedSince.getAsLong() + LONGEST_UNFORCED;
        }
        OptionalLong counts = refusals.dueAt();
        return counts.isPresent() && counts.getAsLong() - next < 0 ? counts.getAsLong() : next;
    }

    /** Records what was counted and forces all. It can be used again. */
    @Override
    public synchronized void close() throws IOException {
        long now = clock.ticks();
        refusals.counts().forEach(entry -> recordOrCount(entry, now));
        tried(() -> {
            force();
            return place.newest();
        });
    }

    @FunctionalInterface
    private interface Recording {
        AuditHead run() throws IOException;
    }

    private AuditHead tried(Recording recording) throws IOException {
        try {
            AuditHead head = recording.run();
            if (!trouble.isEmpty()) {
                LOG.info("audit: it can be written again");
                trouble = "";
            }
            return head;
        } catch (IOException e) {
            failed(e);
            throw e;
        }
    }

    private void failed(IOException e) {
        if (trouble.isEmpty()) {
            LOG.warn("audit: {}", e.getMessage());
        }
        trouble = String.valueOf(e.getMessage());
    }

    private AuditHead write(AuditEntry entry, boolean forcedToo) throws IOException {
        tell();
        makeRoomFor(entry);
        Place before = place;
        append(entry);
        if (forcedToo) {
            forceOr(before);
        }
        return place.newest();
    }

    private void tell() throws IOException {
        while (!untold.isEmpty()) {
            makeRoomFor(untold.get(0));
            append(untold.get(0));
            untold.remove(0);
        }
    }

    /** Begins a file where the one there is has no room, or has not begun. */
    private void makeRoomFor(AuditEntry entry) throws IOException {
        putRight();
        if (place.records() == 0) {
            begin(place.file(), place.newest().sequence() == 0 ? "" : fileBefore(place.file()));
            dropOldest();
            return;
        }
        boolean onlyBegun = place.records() == 1 && place.newest().sequence() > 1;
        int length = AuditRecord.line(place.newest(), clock.now(), entry).bytes().length;
        if (place.length() + length > rules.fileSize() && !onlyBegun) {
            force();
            begin(AuditFiles.name(AuditFiles.number(place.file()) + 1), place.file());
            dropOldest();
        }
    }

    private static String fileBefore(String file) {
        return AuditFiles.name(AuditFiles.number(file) - 1);
    }

    /** A file begins with what carries the chain on, on the disk for good before anything else is. */
    private void begin(String file, String previous) throws IOException {
        Place before = place;
        place = new Place(file, 0, 0, before.newest());
        if (previous.isEmpty()) {
            return;
        }
        try {
            append(AuditEntry.of(AuditKind.CONTINUED)
                    .file(previous)
                    .said("the chain goes on from there")
                    .remembering(memory, ratchet));
            force();
        } catch (IOException e) {
            place = before;
            doubtful = file;
            leave(e);
            throw e;
        }
    }

    private void leave(IOException why) {
        try {
            putRight();
        } catch (IOException e) {
            why.addSuppressed(e);
        }
    }

    /** Cuts off what an attempt that failed may have left. */
    private void putRight() throws IOException {
        if (doubtful == null) {
            return;
        }
        if (doubtful.equals(place.file())) {
            disk.truncate(doubtful, place.length());
        } else {
            disk.delete(doubtful);
        }
        doubtful = null;
    }

    private void append(AuditEntry entry) throws IOException {
        putRight();
        requireOurs();
        AuditRecord.Line line = AuditRecord.line(place.newest(), clock.now(), entry);
        try {
            disk.append(place.file(), line.bytes());
        } catch (IOException e) {
            doubtful = place.file();
            leave(e);
            throw e;
        }
        place = place.behind(line);
        unforced = true;
        memory = Math.max(memory, number(entry, Detail.MEMORY));
        ratchet = Math.max(ratchet, number(entry, Detail.RATCHET));
        if (unforcedSince.isEmpty()) {
            unforcedSince = OptionalLong.of(clock.ticks());
        }
    }

    /** What is cut back to where we were must be ours alone: else a record that was forced could go with it. */
    private void requireOurs() throws IOException {
        long there = disk.length(place.file());
        if (there != place.length()) {
            throw new IOException(place.file() + " has " + there + " bytes and not the " + place.length()
                    + " that were written: somebody has changed it, and nothing is recorded until the next start");
        }
    }

    private static long number(AuditEntry entry, Detail detail) {
        return entry.details().get(detail) instanceof Long number ? number : 0;
    }

    private void forceExisting() throws IOException {
        List<String> files = AuditFiles.on(disk);
        if (!files.isEmpty()) {
            disk.force(files.get(files.size() - 1));
        }
    }

    private void force() throws IOException {
        putRight();
        if (unforced && place.records() > 0) {
            disk.force(place.file());
        }
        unforced = false;
        forced = place.newest();
        unforcedSince = OptionalLong.empty();
    }

    /** Forces, or goes back to where the chain ended before. */
    private void forceOr(Place before) throws IOException {
        try {
            force();
        } catch (IOException e) {
            place = before;
            doubtful = before.file();
            leave(e);
            throw e;
        }
    }

    /** A file more than is kept is no reason to write nothing: it is tried again with the next file. */
    private void dropOldest() {
        try {
            List<String> files = AuditFiles.on(disk);
            for (int i = 0; files.size() - i > rules.files(); i++) {
                Place before = place;
                append(AuditEntry.of(AuditKind.DROPPED)
                        .file(files.get(i))
                        .remaining(beforeFirst(files.get(i + 1)))
                        .said("the oldest file is taken away"));
                forceOr(before);
                disk.delete(files.get(i));
            }
        } catch (IOException e) {
            LOG.warn("audit: the oldest file cannot be taken away: {}", e.getMessage());
        }
    }

    /** With which hash a file begins; nothing where its first line is no record, which a check then finds. */
    private String beforeFirst(String file) throws IOException {
        byte[] content = disk.read(file);
        int end = 0;
        while (end < content.length && content[end] != '\n') {
            end++;
        }
        try {
            return AuditRecord.parse(Arrays.copyOf(content, end)).before();
        } catch (IllegalArgumentException e) {
            LOG.warn("audit: {} does not begin with a record", file);
            return "";
        }
    }
}
