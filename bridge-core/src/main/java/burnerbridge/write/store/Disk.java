package burnerbridge.write.store;

import java.io.IOException;
import java.util.List;

/**
 * Files that must survive a power cut, by their names. What was not forced may be gone after one. Any call may fail, as a
 * disk does that is full, gone, or mounted read-only. Safe for any number of threads.
 */
public interface Disk {

    /** Something that is done with a disk. */
    @FunctionalInterface
    interface Work {
        void run() throws IOException;
    }

    /** The whole content; empty where there is no such file. */
    byte[] read(String name) throws IOException;

    /**
     * Puts another content in the place of all of a file. When it returns, that is there for good; where it fails, either
     * the old or the new is there, whole.
     */
    void replace(String name, byte[] content) throws IOException;

    /**
     * Adds to the end of a file, which is made where it is missing. It may be lost until {@link #force} returns, and part
     * of it may be there where it fails.
     */
    void append(String name, byte[] bytes) throws IOException;

    /** How many bytes a file has; 0 where there is none. */
    long length(String name) throws IOException;

    /** When it returns, all that was added to a file is there for good. */
    void force(String name) throws IOException;

    /** What a file was cut back to, for good: what stands behind so many bytes is no more. */
    void truncate(String name, long length) throws IOException;

    /** Takes a file away, for good; nothing happens where there is none. */
    void delete(String name) throws IOException;

    /** The names that begin with a word, in their order. */
    List<String> names(String prefix) throws IOException;

    /** Whether there is a file, if only an empty one. */
    default boolean holds(String name) throws IOException {
        return names(name).contains(name);
    }

    /**
     * Takes up room that is kept for what must still be written on a full disk; nothing happens where it is taken already.
     * It fails where the disk has no such room.
     */
    void keepReserve() throws IOException;

    /** Gives that room up; whether there was any. */
    boolean giveUpReserve() throws IOException;

    /** Does what must not fail for want of room: where it fails, the reserve is given up and it is done once more. */
    default void atAnyCost(Work work) throws IOException {
        try {
            work.run();
        } catch (IOException first) {
            try {
                if (!giveUpReserve()) {
                    throw first;
                }
                work.run();
            } catch (IOException second) {
                if (second != first) {
                    second.addSuppressed(first);
                }
                throw second;
            }
        }
    }
}
