package burnerbridge.write.store;

import java.io.IOException;
import java.util.List;

/**
 * Files that must survive a power cut, by their names. What was not forced may be gone after one. Any call may fail, as a
 * disk does that is full, gone, or mounted read-only.
 */
public interface Disk {

    /** The whole content; empty where there is no such file. */
    byte[] read(String name) throws IOException;

    /** Puts another content in the place of all of a file. When it returns, that is there for good; otherwise the old is. */
    void replace(String name, byte[] content) throws IOException;

    /** Adds to the end of a file, which is made where it is missing. It may be lost until {@link #force} returns. */
    void append(String name, byte[] bytes) throws IOException;

    /** When it returns, all that was added to a file is there for good. */
    void force(String name) throws IOException;

    /** What a file was cut back to, for good: what stands behind so many bytes is no more. */
    void truncate(String name, long length) throws IOException;

    /** Takes a file away, for good; nothing happens where there is none. */
    void delete(String name) throws IOException;

    /** The names that begin with a word, in their order. */
    List<String> names(String prefix) throws IOException;
}
