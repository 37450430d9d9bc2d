package burnerbridge.daemon;

import burnerbridge.config.LastAccepted;
import burnerbridge.config.SiteFolder;
import burnerbridge.config.problem.Problem;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.Name;
import burnerbridge.site.Site;
import burnerbridge.state.OtherSiteException;
import burnerbridge.state.StateException;
import burnerbridge.state.StateFolder;
import burnerbridge.state.TakesNothingException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.LongConsumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** How the bridge comes to a site and to a state folder, in a world that may not be as it should. */
final class RunStart {
    private static final Logger LOG = LoggerFactory.getLogger(RunStart.class);
    private static final String COMMAND = "run";
    private static final long FIRST_PAUSE = 1_000_000_000L;
    private static final long LONGEST_PAUSE = 30_000_000_000L;
    private static final Pattern SITE_LINE = Pattern.compile("(?m)^site:[ \\t]*[\"']?([a-z0-9-]+)");

    private final Path folder;
    private final StateOption state;
    private final BridgeClock clock;

    RunStart(Path folder, StateOption state, BridgeClock clock) {
        this.folder = folder;
        this.state = state;
        this.clock = clock;
    }

    /**
     * The site that is to be run.
     *
     * @param folder where it was loaded from
     * @param instead what is wrong with the one that was asked for; empty where it is that
     */
    record Chosen(SiteFolder folder, Site site, Optional<Trouble> instead) {}

    /** A state folder, or what stands in for it. */
    record Taken(StateFolder folder, Circumstances circumstances) implements AutoCloseable {
        @Override
        public void close() {
            folder.close();
        }
    }

    /** @throws StateException where the last accepted one is wanted and it cannot be told where it would be */
    Optional<Chosen> choose(SiteFolder loaded, boolean orLastAccepted) throws StateException {
        if (loaded.site().isPresent()) {
            return Optional.of(new Chosen(loaded, loaded.site().get(), Optional.empty()));
        }
        return orLastAccepted ? lastAccepted(loaded) : Optional.empty();
    }

    private Optional<Chosen> lastAccepted(SiteFolder loaded) throws StateException {
        LastAccepted kept = new LastAccepted(state.of(loaded));
        Optional<Path> copy = kept.folder();
        if (copy.isEmpty()) {
            LOG.error("site folder {}: has errors, and none was accepted before", folder);
            return Optional.empty();
        }
        SiteFolder former = SiteFolder.load(copy.get());
        if (former.site().isEmpty()) {
            LOG.error("site folder {}: has errors, and so has the one that was accepted last, {}", folder, copy.get());
            return Optional.empty();
        }
        long errors = loaded.problems().stream().filter(Problem::isError).count();
        String sentence = folder + " has " + errors + (errors == 1 ? " error" : " errors")
                + ", so that the bridge runs the copy that was accepted on "
                + kept.at().orElseThrow()
                + ", with nothing writable";
        return Optional.of(new Chosen(
                former,
                former.site().get(),
                Optional.of(new Trouble(
                        Place.SITE,
                        "site folder",
                        sentence,
                        "'burner-bridge check SITE', mend it, and start the bridge again",
                        clock.now(),
                        Weight.DEGRADED))));
    }

    /** A site file that cannot be read as a whole may still say its name. */
    static Optional<Name> nameIn(Path folder) {
        try {
            String text = new String(Files.readAllBytes(folder.resolve("site.yaml")), StandardCharsets.ISO_8859_1);
            Matcher name = SITE_LINE.matcher(text);
            return name.find() && Name.objectionTo(name.group(1)).isEmpty()
                    ? Optional.of(new Name(name.group(1)))
                    : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /**
     * Takes the state folder; where it is on a file system that takes nothing, what stands in for it.
     *
     * @throws StateException where neither can be had
     */
    Taken take(Chosen chosen) throws StateException {
        Circumstances circumstances =
                chosen.instead().map(Circumstances.USUAL::closedBy).orElse(Circumstances.USUAL);
        chosen.instead().ifPresent(trouble -> LOG.warn("{}", trouble.sentence()));
        try {
            StateFolder taken = state.take(COMMAND, chosen.site(), folder);
            if (chosen.instead().isEmpty()) {
                keep(chosen.folder(), taken);
            }
            return new Taken(taken, circumstances);
        } catch (TakesNothingException e) {
            StateFolder substitute = state.takeSubstitute(COMMAND, chosen.site(), folder);
            Trouble trouble = new Trouble(
                    Place.BRIDGE,
                    "state folder",
                    e.getMessage() + "; the bridge reads and serves, writes nothing to a controller, and keeps nothing;"
                            + " its control socket is in " + substitute.folder(),
                    "the file system there: its room, and whether an error has made it read-only; start the bridge"
                            + " again once it takes files",
                    clock.now(),
                    Weight.DEGRADED);
            LOG.error("{}", trouble.sentence());
            return new Taken(substitute, circumstances.closedBy(trouble));
        }
    }

    private static void keep(SiteFolder accepted, StateFolder taken) {
        try {
            if (new LastAccepted(taken.folder()).keep(accepted)) {
                LOG.debug("state folder: keeps a copy of {}", accepted.folder());
            }
        } catch (IOException e) {
            LOG.warn("state folder: no copy of the site folder can be kept: {}", e.getMessage());
        }
    }

    /**
     * The same, trying until it can be had; another site's is never waited for.
     *
     * @param pause lets at most so many nanoseconds pass
     */
    Taken takeAtLast(Chosen chosen, LongConsumer pause) throws StateException {
        String told = "";
        long wait = FIRST_PAUSE;
        while (true) {
            try {
                return take(chosen);
            } catch (OtherSiteException e) {
                throw e;
            } catch (StateException e) {
                String message = String.valueOf(e.getMessage());
                if (!message.equals(told)) {
                    LOG.warn("the bridge waits: {}", message);
                    told = message;
                }
                pause.accept(wait);
                wait = Math.min(2 * wait, LONGEST_PAUSE);
            }
        }
    }
}
