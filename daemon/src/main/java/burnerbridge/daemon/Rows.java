package burnerbridge.daemon;

import burnerbridge.control.ControlClient;
import burnerbridge.control.ControlException;
import burnerbridge.control.NobodyAnswersException;
import burnerbridge.model.BridgeClock;
import burnerbridge.permits.OwnPermits;
import burnerbridge.permits.PermitSource;
import burnerbridge.permits.RemotePermits;
import burnerbridge.scan.PollerScan;
import burnerbridge.scan.RemoteScan;
import burnerbridge.scan.ScanSource;
import burnerbridge.site.Site;
import burnerbridge.state.OccupiedException;
import burnerbridge.state.OtherSiteException;
import burnerbridge.state.StateException;
import burnerbridge.state.StateFolder;
import burnerbridge.table.ValueTable;
import burnerbridge.values.AskedFor;
import burnerbridge.values.RemoteRows;
import burnerbridge.values.RowSource;
import burnerbridge.values.TableRows;
import burnerbridge.write.ApprovalDesk;
import burnerbridge.write.store.FolderDisk;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Consumer;

/**
 * Where a command gets its rows: from the bridge that runs with the state folder; else, with the state
 * folder as its own, from the lines, so that there is never more than one master.
 *
 * @param <S> what gives the rows
 * @param origin for people
 * @param remark what else there is to say of the bridge just now; empty for nothing
 */
record Rows<S extends AutoCloseable>(S source, StopStack started, String origin, Remark remark)
        implements AutoCloseable {
    /** A bridge that has its state folder but no socket yet is about to start. */
    private static final int TRIES = 20;

    private static final long PAUSE = 100_000_000L;

    /** Asked by the thread that reads the rows. */
    interface Remark {
        String text() throws ControlException;
    }

    /** Makes what gives the rows. */
    interface Maker<S> {
        /** Of a running bridge; owns the client. */
        S remote(ControlClient client);

        /** Of lines that this process reads, with the state folder that it has taken. */
        S own(ValueTable table, LineSide lines, Path stateFolder) throws StateException;
    }

    /** What is done with an open source. */
    interface Use<S extends AutoCloseable> {
        int with(Rows<S> rows) throws ControlException, InterruptedException;
    }

    /** What a command works on. */
    record Place(String command, Site site, Path siteFolder, StateOption state) {}

    /**
     * Opens a source, uses it, and closes it, at the latest when the process ends.
     *
     * @param say takes words for people on what went wrong
     * @return the exit code
     */
    static <S extends AutoCloseable> int with(
            Place place, BridgeClock clock, Maker<S> maker, Consumer<String> say, Use<S> use)
            throws InterruptedException {
        Rows<S> rows;
        try {
            rows = open(place, clock, maker);
        } catch (StateException | ControlException e) {
            say.accept("error: " + e.getMessage() + ".");
            return e instanceof OtherSiteException ? ExitCode.BAD_INPUT : ExitCode.COULD_NOT_REACH;
        }
        Runtime.getRuntime().addShutdownHook(new Thread(rows::close, "end"));
        try {
            return use.with(rows);
        } catch (ControlException e) {
            say.accept("error: " + e.getMessage() + ".");
            return ExitCode.COULD_NOT_REACH;
        } finally {
            rows.close();
        }
    }

    /** The permits. */
    static Maker<PermitSource> ofPermits(Site site, BridgeClock clock) {
        return new Maker<>() {
            @Override
            public PermitSource remote(ControlClient client) {
                return new RemotePermits(client);
            }

            @Override
            public PermitSource own(ValueTable table, LineSide lines, Path stateFolder) throws StateException {
                try {
                    FolderDisk disk = new FolderDisk(FolderDisk.in(stateFolder));
                    return new OwnPermits(ApprovalDesk.open(site, disk, table, clock), site, table);
                } catch (IOException e) {
                    throw new StateException(String.valueOf(e.getMessage()));
                }
            }
        };
    }

    /** The rows of the points. */
    static Maker<RowSource> ofPoints(BridgeClock clock) {
        return new Maker<>() {
            @Override
            public RowSource remote(ControlClient client) {
                return new RemoteRows(client, clock);
            }

            @Override
            public RowSource own(ValueTable table, LineSide lines, Path stateFolder) {
                return new TableRows(table, AskedFor.Source.NONE, clock);
            }
        };
    }

    /** The rows of the read plan. */
    static Maker<ScanSource> ofPlan() {
        return new Maker<>() {
            @Override
            public ScanSource remote(ControlClient client) {
                return new RemoteScan(client);
            }

            @Override
            public ScanSource own(ValueTable table, LineSide lines, Path stateFolder) {
                return new PollerScan(lines.pollers(), table);
            }
        };
    }

    /**
     * @throws StateException where neither can be had
     * @throws ControlException where a bridge runs but cannot be asked
     */
    private static <S extends AutoCloseable> Rows<S> open(Place place, BridgeClock clock, Maker<S> maker)
            throws StateException, ControlException {
        for (int tries = 1; ; tries++) {
            try {
                return ofTheBridge(place, maker);
            } catch (NobodyAnswersException nobody) {
                try {
                    return ofTheLines(place, clock, maker);
                } catch (OccupiedException e) {
                    if (tries == TRIES) {
                        throw e;
                    }
                    LockSupport.parkNanos(PAUSE);
                }
            }
        }
    }

    private static <S extends AutoCloseable> Rows<S> ofTheBridge(Place place, Maker<S> maker)
            throws StateException, ControlException {
        Site site = place.site();
        Path folder = place.state().of(site);
        ControlClient client = place.state().connect(folder);
        if (!client.greeting().site().equals(site.name().text())) {
            client.close();
            throw new ControlException("the bridge that runs with the state folder " + folder + " is that of site "
                    + client.greeting().site() + ", not of " + site.name());
        }
        return of(
                maker.remote(client),
                new StopStack(),
                "from the running bridge, process " + client.greeting().pid(),
                site.bacnet()
                                .flatMap(bacnet -> bacnet.options().foreignDevice())
                                .isPresent()
                        ? () -> registration(client)
                        : () -> "");
    }

    private static String registration(ControlClient client) throws ControlException {
        List<String> states = new ArrayList<>();
        client.ask(
                AboutHandler.NAME,
                arguments -> {},
                line -> states.add(Objects.toString(line.get(AboutHandler.FOREIGN_DEVICE), "not started")));
        return "BACnet foreign device: " + String.join(", ", states);
    }

    private static <S extends AutoCloseable> Rows<S> ofTheLines(Place place, BridgeClock clock, Maker<S> maker)
            throws StateException {
        Site site = place.site();
        StopStack started = new StopStack();
        StateFolder taken = place.state().take(place.command(), site, place.siteFolder());
        started.push(taken);
        ValueTable table = new ValueTable(site.points(), site.owners());
        LineSide lines = new LineSide(site, table, clock, LineThreads.ofThisJava());
        started.push(lines);
        lines.start();
        try {
            S own = maker.own(table, lines, taken.folder());
            return of(own, started, "no bridge runs here; read from the lines directly", () -> "");
        } catch (StateException e) {
            started.close();
            throw e;
        }
    }

    private static <S extends AutoCloseable> Rows<S> of(S source, StopStack started, String origin, Remark remark) {
        started.push(source);
        return new Rows<>(source, started, origin, remark);
    }

    /** Ends the source and what was started for it. Idempotent. */
    @Override
    public void close() {
        started.close();
    }
}
