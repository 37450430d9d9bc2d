package burnerbridge.simulator.device;

import java.util.ArrayList;
import java.util.List;

/** Every frame that was no read, in the order in which they came. For any thread. */
final class WriteRecord {
    private final List<Entry> entries = new ArrayList<>();

    /** One frame, of which it may turn out later that it was done. */
    static final class Entry {
        private final WrittenFrame came;
        private volatile boolean done;

        private Entry(WrittenFrame came) {
            this.came = came;
        }

        void isDone() {
            done = true;
        }

        WrittenFrame now() {
            return new WrittenFrame(came.nanos(), came.unit(), came.bytes(), done);
        }
    }

    synchronized Entry came(long nanos, int unit, byte[] bytes) {
        Entry entry = new Entry(new WrittenFrame(nanos, unit, bytes, false));
        entries.add(entry);
        return entry;
    }

    synchronized List<WrittenFrame> all() {
        return entries.stream().map(Entry::now).toList();
    }
}
