package burnerbridge.daemon.screen;

import burnerbridge.control.ControlException;
import burnerbridge.values.Query;
import burnerbridge.values.RowSource;
import burnerbridge.values.Summary;
import java.io.PrintWriter;

/** A way to print the rows of a moment once. */
public interface RowFormat {

    /** Prints all rows of the query and returns what is said of them as a whole. */
    Summary print(RowSource source, Query query, PrintWriter out) throws ControlException;
}
