package burnerbridge.daemon;

import burnerbridge.control.ControlClient;
import burnerbridge.control.ControlException;
import burnerbridge.control.NobodyAnswersException;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.Site;
import burnerbridge.state.OccupiedException;
import burnerbridge.state.StateException;
import burnerbridge.state.StateFolder;
import burnerbridge.table.ValueTable;
import burnerbridge.values.RemoteRows;
import burnerbridge.values.RowSource;
import burnerbridge.values.TableRows;
import java.nio.file.Path;
import java.util.concurrent.locks.LockSupport;

/**
 * Where a command gets its rows: from the bridge that runs with the state folder; else, with the state
 * folder as its own, from the lines, so that there is never more than one master.
 *
 * @param origin for people
 */
record Rows(RowSource source, String origin) {
    /** A bridge that has its state folder but no socket yet is about to start. */
    private static final int TRIES = 20;

    private static final long PAUSE = 100_000_000L;

    /**
     * @throws StateException where neither can be had
     * @throws ControlException where a bridge runs but cannot be asked
     */
    static Rows open(Site site, Path siteFolder, StateOption state, BridgeClock clock)
            throws StateException, ControlException {
        for (int tries = 1; ; tries++) {
            try {
                return ofTheBridge(site, state.of(site), clock);
            } catch (NobodyAnswersException nobody) {
                try {
                    return ofTheLines(site, siteFolder, state, clock);
                } catch (OccupiedException e) {
                    if (tries == TRIES) {
                        throw e;
                    }
                    LockSupport.parkNanos(PAUSE);
                }
            }
        }
    }

    private static Rows ofTheBridge(Site site, Path folder, BridgeClock clock) throws ControlException {
        ControlClient client = ControlClient.connect(StateFolder.socketIn(folder));
        if (!client.greeting().site().equals(site.name().text())) {
            client.close();
            throw new ControlException("the bridge that runs with the state folder " + folder + " is that of site "
                    + client.greeting().site() + ", not of " + site.name());
        }
        return new Rows(
                new RemoteRows(client, clock),
                "from the running bridge, process " + client.greeting().pid());
    }

    private static Rows ofTheLines(Site site, Path siteFolder, StateOption state, BridgeClock clock)
            throws StateException {
        StopStack started = new StopStack();
        started.push(state.take("values", site, siteFolder));
        ValueTable table = new ValueTable(site.points(), site.owners());
        LineSide lines = new LineSide(site, table, clock, LineThreads.ofThisJava());
        started.push(lines);
        lines.start();
        return new Rows(
                new OwnRows(new TableRows(table, clock), started), "no bridge runs here; read from the lines directly");
    }
}
