package burnerbridge.write.audit;

import burnerbridge.write.store.Disk;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/**
 * Reads a chain from its first file to its last and tells what is wrong with it, and where. It writes nothing and may run
 * beside the bridge that adds to the chain.
 *
 * <p>Without a head that was kept elsewhere it cannot see that the end was cut off, nor that all from some record on was
 * written anew with hashes that fit: both are chains as good as any. With one it sees both, up to that head.
 */
public final class AuditVerifier {
    private static final String WITHOUT_HEAD =
            "no head from elsewhere was given: that the end was cut off, or that all from some record on was written"
                    + " anew, cannot be seen";

    private final Disk disk;
    private final List<AuditHead> heads = new ArrayList<>();

    public AuditVerifier(Disk disk) {
        this.disk = disk;
    }

    /** Holds the chain against a head that was kept elsewhere as well. */
    public AuditVerifier against(AuditHead head) {
        heads.add(head);
        return this;
    }

    /** Verifies alone. */
    public AuditReport verify() throws IOException {
        return verify(record -> {});
    }

    /**
     * Verifies and shows.
     *
     * @param records is given each record in its order, the changed ones too; {@link AuditRecord#print} shows one
     */
    public AuditReport verify(Consumer<AuditRecord> records) throws IOException {
        return new Run(disk, heads, records).report();
    }

    private static final class Run {
        private final Disk disk;
        private final List<AuditHead> heads;
        private final List<AuditFinding> findings = new ArrayList<>();
        private final List<String> notes = new ArrayList<>();
        private final Map<AuditHead, String> hashes = new LinkedHashMap<>();
        private final ChainCheck check;
        private long more;

        Run(Disk disk, List<AuditHead> heads, Consumer<AuditRecord> records) {
            this.disk = disk;
            this.heads = heads;
            this.check = new ChainCheck(this::found, record -> {
                heads.stream()
                        .filter(head -> head.sequence() == record.sequence())
                        .forEach(head -> hashes.merge(
                                head,
                                record.computed(),
                                (one, other) -> head.hash().equals(one) ? one : other));
                records.accept(record);
            });
        }

        private void found(AuditFinding finding) {
            if (findings.size() < AuditReport.MOST_FINDINGS) {
                findings.add(finding);
            } else {
                more++;
            }
        }

        AuditReport report() throws IOException {
            int files = follow();
            check.end();
            heads.forEach(this::hold);
            if (heads.isEmpty()) {
                notes.add(WITHOUT_HEAD);
            }
            return new AuditReport(files, check.count(), check.first(), check.tip(), findings, more, notes);
        }

        /** The chain may grow meanwhile, begin another file, and lose its oldest. */
        private int follow() throws IOException {
            Map<String, Boolean> torn = new LinkedHashMap<>();
            List<String> next = AuditFiles.on(disk);
            String open = "";
            int length = 0;
            long lines = 0;
            while (!next.isEmpty()) {
                for (String file : next) {
                    byte[] content = disk.read(file);
                    boolean goesOn = file.equals(open);
                    long before = check.count();
                    int whole = check.follow(
                            file, content, goesOn ? Math.min(length, content.length) : 0, goesOn ? (int) lines + 1 : 1);
                    lines = (goesOn ? lines : 0) + check.count() - before;
                    length = whole;
                    open = file;
                    if (content.length > 0 || disk.holds(file)) {
                        torn.put(file, whole < content.length);
                    } else {
                        vanished();
                    }
                }
                List<String> now = AuditFiles.on(disk);
                next = now.subList(behind(open, now), now.size());
            }
            noteTails(torn, open);
            return torn.size();
        }

        /** The file that was the last is read once more, since it has grown before another was begun. */
        private int behind(String open, List<String> now) {
            int last = now.indexOf(open);
            if (last == now.size() - 1) {
                return now.size();
            }
            if (last < 0) {
                vanished();
                return (int) now.stream()
                        .filter(file -> AuditFiles.number(file) < AuditFiles.number(open))
                        .count();
            }
            return last;
        }

        private void vanished() {
            check.fileVanished();
            String note = "a file was taken away while the chain was read: verify again to see what is there now";
            if (!notes.contains(note)) {
                notes.add(note);
            }
        }

        private void noteTails(Map<String, Boolean> torn, String newest) {
            torn.forEach((file, isTorn) -> {
                if (isTorn && file.equals(newest)) {
                    notes.add(file + ": the last line is not whole: it is being written, or a power cut left it so");
                } else if (isTorn) {
                    found(new AuditFinding(file, 0, "its last line is not whole"));
                }
            });
        }

        private void hold(AuditHead head) {
            String hash = hashes.get(head);
            if (head.sequence() < check.first()) {
                notes.add("the head " + head + " is older than what is kept, and tells nothing");
            } else if (hash != null && !hash.equals(head.hash())) {
                found(new AuditFinding(
                        "",
                        0,
                        "record " + head.sequence() + " is not the one that was published as the head " + head
                                + ": this record or one before it was written anew, and all behind it"));
            } else if (hash == null && head.sequence() > check.tip().sequence()) {
                found(new AuditFinding(
                        "",
                        0,
                        "the chain ends with record " + check.tip().sequence() + ", and record " + head.sequence()
                                + " was published as its head: "
                                + (head.sequence() - check.tip().sequence())
                                + " records were cut off"));
            } else if (hash == null && head.sequence() > 0) {
                found(new AuditFinding(
                        "", 0, "record " + head.sequence() + ", which was published as the head, is missing"));
            }
        }
    }
}
