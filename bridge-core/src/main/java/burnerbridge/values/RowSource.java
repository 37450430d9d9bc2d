package burnerbridge.values;

import burnerbridge.control.ControlException;
import java.util.function.Consumer;

/** Where the rows come from. One thread uses it; any may close it. */
public interface RowSource extends AutoCloseable {

    /**
     * Takes the rows of this moment, in the order of the site.
     *
     * @param row is given each row of the query's part
     * @throws ControlException where a running bridge was asked and did not answer
     */
    Summary read(Query query, Consumer<PointRow> row) throws ControlException;

    /** Idempotent. */
    @Override
    void close();
}
