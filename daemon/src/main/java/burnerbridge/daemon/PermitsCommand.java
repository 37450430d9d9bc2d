package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.problem.Problem;
import burnerbridge.control.ControlException;
import burnerbridge.model.BridgeClock;
import burnerbridge.permits.PermitSource;
import burnerbridge.permits.PermitsView;
import burnerbridge.permits.PersonName;
import burnerbridge.site.Name;
import burnerbridge.site.Site;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.state.StateException;
import burnerbridge.write.approval.ApprovedItems;
import burnerbridge.write.audit.AuditFinding;
import burnerbridge.write.audit.AuditHead;
import burnerbridge.write.audit.AuditReport;
import burnerbridge.write.audit.AuditVerifier;
import burnerbridge.write.store.FolderDisk;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Shows, approves and withdraws what may be written, and verifies the audit. */
@Command(
        name = "permits",
        mixinStandardHelpOptions = true,
        description = "Shows every write permit: its row and address, what is there now, who may ask for what, and what"
                + " happens in silence. A person approves or withdraws them here; until then the bridge only reads."
                + " Asks the running bridge; where none runs, it reads from the lines itself.",
        footer = {
            "",
            "Exit codes: 0 fine; 1 not approved, asleep, or something is wrong with the audit; 2 bad input; 3 could not"
                    + " reach.",
            "",
            Caution.SHORT
        })
final class PermitsCommand implements Callable<Integer> {
    private static final Duration PAUSE = Duration.ofMillis(100);

    @Parameters(index = "0", paramLabel = "SITE", description = "The site folder, which holds site.yaml.")
    private Path folder = Path.of("");

    @Option(
            names = "--approve",
            paramLabel = "NAME",
            description = "Approve what is shown, as this person. A bridge that runs takes back what stands in"
                    + " controllers first.")
    private @Nullable String approve;

    @Option(
            names = "--withdraw",
            paramLabel = "NAME",
            description = "Take the approval back, as this person. A bridge that runs takes back what stands in"
                    + " controllers first.")
    private @Nullable String withdraw;

    @Option(names = "--audit", description = "Print every record of the audit, and verify its chain.")
    private boolean audit;

    @Option(
            names = "--head",
            paramLabel = "NUMBER:HASH",
            description = "With --audit: a record that was kept elsewhere, which the chain must still have.")
    private @Nullable String head;

    @Option(
            names = "--wait",
            paramLabel = "SECONDS",
            description = "How long to wait until every controller has said who it is, 0 to 3600 (10).")
    private int wait = 10;

    @Mixin
    private StateOption state = new StateOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final BridgeClock clock = new MachineClock();

    @Override
    public Integer call() throws InterruptedException {
        SiteFolder loaded = SiteFolder.load(folder);
        Optional<Site> site = loaded.site();
        if (site.isEmpty()) {
            loaded.problems().stream()
                    .filter(Problem::isError)
                    .forEach(problem -> say(problem.word() + ": " + problem));
            return ExitCode.BAD_INPUT;
        }
        try {
            checkOptions();
        } catch (IllegalArgumentException e) {
            say("error: " + e.getMessage() + ".");
            return ExitCode.BAD_INPUT;
        }
        if (audit) {
            return verify(site.get());
        }
        if (site.get().permits().isEmpty() && withdraw == null) {
            new PermitsReport(site.get(), List.of()).printNothing(out());
            return ExitCode.FINE;
        }
        QuietLog.set();
        PermitsReport report = new PermitsReport(site.get(), Writable.of(loaded, site.get()));
        return Rows.with(
                new Rows.Place("permits", site.get(), folder, state),
                clock,
                Rows.ofPermits(site.get(), clock),
                this::say,
                rows -> answer(report, site.get(), rows));
    }

    private void checkOptions() {
        long acts = Stream.of(approve, withdraw, audit ? "" : null)
                .filter(act -> act != null)
                .count();
        if (acts > 1) {
            throw new IllegalArgumentException("only one of --approve, --withdraw and --audit at a time");
        }
        if (head != null && (!audit || AuditHead.parse(head).isEmpty())) {
            throw new IllegalArgumentException(
                    "--head goes with --audit, and is a number and 64 digits of 0 to f, like 57:e3b0… (was '" + head
                            + "')");
        }
        if (wait < 0 || wait > 3600) {
            throw new IllegalArgumentException("--wait: must be 0 to 3600 s (was " + wait + ")");
        }
        checkName("--approve", approve);
        checkName("--withdraw", withdraw);
    }

    private static void checkName(String option, @Nullable String name) {
        Optional<String> objection = name == null ? Optional.empty() : PersonName.objectionTo(name);
        if (objection.isPresent()) {
            throw new IllegalArgumentException(option + ": " + objection.get());
        }
    }

    private int answer(PermitsReport report, Site site, Rows<PermitSource> rows) throws ControlException {
        PermitsView view = awaited(site, rows.source());
        report.print(out(), view, rows.origin());
        if (approve != null) {
            if (!view.trouble().isEmpty()) {
                say("error: nothing can be approved: " + view.trouble() + ".");
                return ExitCode.COULD_NOT_REACH;
            }
            // Of what was loaded here, so that a bridge that runs with something else does not approve that.
            out().println(sentence(rows.source().approve(approve.strip(), shown(site, view))));
            return ExitCode.FINE;
        }
        if (withdraw != null) {
            out().println(sentence(rows.source().withdraw(withdraw.strip())));
            return ExitCode.FINE;
        }
        out().println(PermitsReport.verdict(view));
        boolean fine = view.isApproved()
                && view.rows().stream().allMatch(row -> row.asleep().isEmpty());
        return fine ? ExitCode.FINE : ExitCode.WARNINGS;
    }

    private static String sentence(String done) {
        return done.substring(0, 1).toUpperCase(Locale.ROOT) + done.substring(1) + ".";
    }

    /** The hash of what was loaded here, with the controllers that answer there. */
    private static String shown(Site site, PermitsView view) {
        Map<Name, String> identities = new TreeMap<>();
        view.identities().forEach((controller, identity) -> identities.put(new Name(controller), identity));
        return ApprovedItems.of(site, identities).hash();
    }

    /** What is there once all controllers concerned have said who they are, or the time to wait is over. */
    private PermitsView awaited(Site site, PermitSource source) throws ControlException {
        long end = clock.ticks() + Duration.ofSeconds(wait).toNanos();
        PermitsView view = source.view();
        while (isMissing(site, view) && end - clock.ticks() > 0) {
            LockSupport.parkNanos(PAUSE.toNanos());
            view = source.view();
        }
        return view;
    }

    private static boolean isMissing(Site site, PermitsView view) {
        return view.trouble().isEmpty()
                && site.permits().stream()
                        .map(WritePermit::point)
                        .anyMatch(point -> !view.identities()
                                .containsKey(point.controller().text()));
    }

    private int verify(Site site) {
        try (FolderDisk disk = new FolderDisk(FolderDisk.in(state.of(site)))) {
            AuditVerifier verifier = new AuditVerifier(disk);
            AuditReport report = (head == null
                            ? verifier
                            : verifier.against(AuditHead.parse(head).orElseThrow()))
                    .verify(record -> out().println(record.print()));
            print(report);
            return report.isWhole() ? ExitCode.FINE : ExitCode.WARNINGS;
        } catch (StateException | IOException e) {
            say("error: " + e.getMessage() + ".");
            return ExitCode.COULD_NOT_REACH;
        }
    }

    private void print(AuditReport report) {
        PrintWriter out = out();
        out.println();
        out.println(report.records() + " records in " + report.files() + " files, from number " + report.first()
                + " on; the newest is " + report.newest());
        for (AuditFinding finding : report.findings()) {
            out.println("wrong: " + finding);
        }
        if (report.more() > 0) {
            out.println("and " + report.more() + " more");
        }
        report.notes().forEach(note -> out.println("note: " + note));
        out.println(report.isWhole() ? "Nothing is wrong, as far as can be seen." : "The audit is not whole.");
    }

    private PrintWriter out() {
        return spec.commandLine().getOut();
    }

    private void say(String text) {
        spec.commandLine().getErr().println(text);
    }
}
