package burnerbridge.write.store;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * A disk in memory that keeps its word and not a bit more: what was not forced is gone after a power cut, but for as many
 * of its first bytes as the dice say. It can lose power, fail, or be full at a chosen operation. Reads are no operations.
 */
public final class ForgetfulDisk implements Disk {
    private static final int USUAL_RESERVE = 64 * 1024;

    private final Random dice;
    private final int reserveSize;
    /** What programs see. */
    private final Map<String, byte[]> seen = new TreeMap<>();
    /** What is there for good. */
    private final Map<String, byte[]> kept = new TreeMap<>();

    private final List<String> journal = new ArrayList<>();
    private final Set<String> unreadable = new HashSet<>();
    private boolean reserved;
    private long capacity = Long.MAX_VALUE;
    private long operations;
    private long forces;
    private long cutAt = -1;
    private long failAt = -1;
    private boolean failing;
    private boolean withoutPower;

    /** The power went. Everything fails like this until {@link #crash}. */
    public static final class PowerCut extends RuntimeException {
        private static final long serialVersionUID = 1L;

        PowerCut() {
            super("the power is gone");
        }
    }

    /** @param seed of what a power cut leaves */
    public ForgetfulDisk(long seed) {
        this(seed, USUAL_RESERVE);
    }

    public ForgetfulDisk(long seed, int reserveSize) {
        this.dice = new Random(seed);
        this.reserveSize = reserveSize;
    }

    /** The power goes and comes back: what was not forced is gone, but for a beginning of it. */
    public synchronized void crash() {
        for (Map.Entry<String, byte[]> file : new TreeMap<>(seen).entrySet()) {
            String name = file.getKey();
            byte[] forced = kept.get(name);
            byte[] all = file.getValue();
            int from = forced == null ? 0 : forced.length;
            int rest = dice.nextInt(all.length - from + 1);
            if (forced == null && rest == 0 && dice.nextBoolean()) {
                seen.remove(name);
            } else {
                seen.put(name, Arrays.copyOf(all, from + rest));
            }
        }
        kept.clear();
        kept.putAll(seen);
        withoutPower = false;
        cutAt = -1;
        failAt = -1;
        failing = false;
    }

    /** The power goes at the n-th operation from now, from 1: before it, after it, or in the middle. */
    public synchronized void crashAt(long nth) {
        cutAt = operations + nth;
    }

    /** The n-th operation from now, from 1, fails, and no other. */
    public synchronized void failAt(long nth) {
        failAt = operations + nth;
    }

    /** Every operation fails, or none does any more. */
    public synchronized void fail(boolean always) {
        failing = always;
    }

    /** A file that cannot be read. */
    public synchronized void makeUnreadable(String name) {
        unreadable.add(name);
    }

    /** From now on it is full: nothing more fits but what is freed. */
    public synchronized void fill() {
        capacity = used();
    }

    /** From now on so many more bytes fit. */
    public synchronized void leaveRoomFor(long bytes) {
        capacity = used() + bytes;
    }

    /** It has room again. */
    public synchronized void empty() {
        capacity = Long.MAX_VALUE;
    }

    private long used() {
        return seen.values().stream().mapToLong(bytes -> bytes.length).sum() + (reserved ? reserveSize : 0);
    }

    /** How many operations were begun so far. */
    public synchronized long operations() {
        return operations;
    }

    /** How many files were forced so far, replaced ones included. */
    public synchronized long forces() {
        return forces;
    }

    /** What was done so far: {@code append audit-000001.jsonl 312}. */
    public synchronized List<String> journal() {
        return List.copyOf(journal);
    }

    /** A file as programs see it, to look at or to damage. */
    public synchronized byte[] look(String name) {
        byte[] bytes = seen.get(name);
        if (bytes == null) {
            throw new IllegalArgumentException("there is no " + name + " but " + seen.keySet());
        }
        return bytes.clone();
    }

    /** Puts something on the disk for good behind everybody's back; null takes it away. */
    public synchronized void meddle(String name, byte @Nullable [] content) {
        if (content == null) {
            seen.remove(name);
            kept.remove(name);
        } else {
            seen.put(name, content.clone());
            kept.put(name, content.clone());
        }
    }

    /** A copy as it would be after a power cut without any luck: what was forced and nothing else. */
    public synchronized ForgetfulDisk forced() {
        ForgetfulDisk copy = new ForgetfulDisk(0, reserveSize);
        kept.forEach(copy::meddle);
        copy.reserved = reserved;
        return copy;
    }

    @Override
    public synchronized byte[] read(String name) throws IOException {
        requirePower();
        if (unreadable.contains(name)) {
            throw new IOException(name + " cannot be read: the sector is bad");
        }
        byte[] bytes = seen.get(name);
        return bytes == null ? new byte[0] : bytes.clone();
    }

    @Override
    public synchronized void replace(String name, byte[] content) throws IOException {
        operation("replace " + name + " " + content.length, () -> {
            requireRoom(content.length);
            seen.put(name, content.clone());
            kept.put(name, content.clone());
            forces++;
        });
    }

    @Override
    public synchronized void append(String name, byte[] bytes) throws IOException {
        operation("append " + name + " " + bytes.length, () -> {
            byte[] before = seen.getOrDefault(name, new byte[0]);
            long room = capacity - used();
            int fits = (int) Math.min(bytes.length, Math.max(0, room));
            byte[] after = Arrays.copyOf(before, before.length + fits);
            System.arraycopy(bytes, 0, after, before.length, fits);
            seen.put(name, after);
            requireRoom(bytes.length - fits);
        });
    }

    @Override
    public synchronized long length(String name) {
        requirePower();
        byte[] bytes = seen.get(name);
        return bytes == null ? 0 : bytes.length;
    }

    @Override
    public synchronized void force(String name) throws IOException {
        operation("force " + name, () -> {
            kept.put(name, seen.computeIfAbsent(name, missing -> new byte[0]).clone());
            forces++;
        });
    }

    @Override
    public synchronized void truncate(String name, long length) throws IOException {
        operation("truncate " + name + " " + length, () -> {
            byte[] before = seen.get(name);
            if (before != null && before.length > length) {
                byte[] after = Arrays.copyOf(before, (int) length);
                seen.put(name, after);
                kept.put(name, after.clone());
            }
        });
    }

    @Override
    public synchronized void delete(String name) throws IOException {
        operation("delete " + name, () -> {
            seen.remove(name);
            kept.remove(name);
        });
    }

    @Override
    public synchronized List<String> names(String prefix) {
        requirePower();
        return seen.keySet().stream().filter(name -> name.startsWith(prefix)).toList();
    }

    @Override
    public synchronized void keepReserve() throws IOException {
        if (!reserved) {
            operation("keep the reserve", () -> {
                requireRoom(reserveSize);
                reserved = true;
            });
        }
    }

    @Override
    public synchronized boolean giveUpReserve() throws IOException {
        boolean given = reserved;
        if (given) {
            operation("give up the reserve", () -> reserved = false);
        }
        return given;
    }

    private void operation(String what, Work work) throws IOException {
        requirePower();
        operations++;
        journal.add(what);
        if (operations == cutAt) {
            withoutPower = true;
            if (dice.nextBoolean()) {
                work.run();
            }
            throw new PowerCut();
        }
        if (failing || operations == failAt) {
            throw new IOException("the disk failed at: " + what);
        }
        work.run();
    }

    private void requirePower() {
        if (withoutPower) {
            throw new PowerCut();
        }
    }

    private void requireRoom(long bytes) throws IOException {
        if (bytes > capacity - used()) {
            throw new IOException("the disk is full");
        }
    }

    /** All files, by their names, as programs see them. */
    public synchronized Map<String, byte[]> files() {
        return Collections.unmodifiableMap(new TreeMap<>(seen));
    }
}
