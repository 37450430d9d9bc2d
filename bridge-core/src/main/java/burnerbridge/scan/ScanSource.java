package burnerbridge.scan;

import burnerbridge.control.ControlException;
import java.util.function.Consumer;

/** Where the rows come from. One thread uses it; any may close it. */
public interface ScanSource extends AutoCloseable {

    /**
     * Takes some rows of this moment: of each line its own, then those of its controllers, in the order of the site.
     *
     * @param from how many rows are skipped
     * @param most how many rows at most
     * @return how many rows there are in all
     * @throws ControlException where a running bridge was asked and did not answer
     */
    int read(int from, int most, Consumer<ScanRow> row) throws ControlException;

    /** Idempotent. */
    @Override
    void close();
}
