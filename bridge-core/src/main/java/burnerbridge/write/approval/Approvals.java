package burnerbridge.write.approval;

import burnerbridge.site.Name;
import burnerbridge.write.store.Disk;
import burnerbridge.write.store.Fields;
import burnerbridge.write.store.SealedFile;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The approval on the disk. Whoever can write there can approve: its hash tells damage, not who wrote it. Safe for any
 * number of threads.
 */
public final class Approvals {
    private static final String FILE = "approval";
    private static final int VERSION = 1;

    private final SealedFile file;

    public Approvals(Disk disk) {
        this.file = new SealedFile(disk, FILE, VERSION);
    }

    /** Reads it. What cannot be read is not approved. */
    public synchronized ApprovalState read() {
        try {
            return file.read(Approvals::state).orElseGet(ApprovalState.Never::new);
        } catch (IOException e) {
            return new ApprovalState.Unreadable(String.valueOf(e.getMessage()));
        }
    }

    /** Keeps another approval in the place of the one there is; when it returns, that is on the disk for good. */
    public synchronized void write(Approval approval) throws IOException {
        file.write(head(approval), rows(approval));
    }

    /**
     * Takes the approval back, and keeps it to compare with. Nothing happens where none stands.
     *
     * @param by the name that the person gave
     * @param believed whether the clock is believed to be right
     */
    public synchronized void withdraw(String by, Instant at, boolean believed) throws IOException {
        if (read() instanceof ApprovalState.Stands stands) {
            Map<String, Object> head = head(stands.approval());
            head.put("withdrawnBy", by);
            head.put("withdrawnAt", at.toString());
            head.put("withdrawnBelieved", believed);
            file.write(head, rows(stands.approval()));
        }
    }

    private static Map<String, Object> head(Approval approval) {
        Map<String, Object> head = new LinkedHashMap<>();
        head.put("hash", approval.hash());
        head.put("by", approval.by());
        head.put("at", approval.at().toString());
        head.put("believed", approval.believed());
        Map<String, String> identities = new LinkedHashMap<>();
        approval.identities().forEach((controller, identity) -> identities.put(controller.text(), identity));
        head.put("identities", identities);
        return head;
    }

    private static List<Map<String, Object>> rows(Approval approval) {
        List<Map<String, Object>> rows = new ArrayList<>();
        for (ApprovedItem item : approval.items()) {
            rows.add(Map.of("item", List.of(item.subject(), item.what(), item.text())));
        }
        approval.roles().forEach((row, role) -> rows.add(Map.of("role", List.of(row, role))));
        return rows;
    }

    private static ApprovalState state(SealedFile.Content content) {
        Fields head = content.head();
        List<ApprovedItem> items = new ArrayList<>();
        Map<String, String> roles = new TreeMap<>();
        for (Fields row : content.rows()) {
            if (row.has("item")) {
                List<String> item = texts(row, "item", 3);
                items.add(new ApprovedItem(item.get(0), item.get(1), item.get(2)));
            } else {
                List<String> role = texts(row, "role", 2);
                roles.put(role.get(0), role.get(1));
            }
        }
        Map<Name, String> identities = new TreeMap<>();
        Fields of = head.object("identities");
        of.members().keySet().forEach(controller -> identities.put(new Name(controller), of.text(controller)));
        Approval approval = new Approval(
                head.text("hash"),
                items,
                head.text("by"),
                instant(head.text("at")),
                head.flag("believed"),
                identities,
                roles);
        return head.has("withdrawnBy")
                ? new ApprovalState.Withdrawn(
                        approval,
                        head.text("withdrawnBy"),
                        instant(head.text("withdrawnAt")),
                        head.flag("withdrawnBelieved"))
                : new ApprovalState.Stands(approval);
    }

    private static List<String> texts(Fields row, String name, int count) {
        List<String> texts = row.texts(name);
        if (texts.size() != count) {
            throw new IllegalArgumentException("'" + name + "' has " + texts.size() + " texts, not " + count);
        }
        return texts;
    }

    private static Instant instant(String text) {
        try {
            return Instant.parse(text);
        } catch (DateTimeException e) {
            throw new IllegalArgumentException("a time is none (was " + text + ")", e);
        }
    }
}
