package burnerbridge.permits;

import java.util.List;
import java.util.Map;

/**
 * All permits of a site, and whether a person has approved them.
 *
 * @param trouble why nothing of this can be had, and nothing may be written; empty where all of it can
 * @param whyNotApproved why what stands here is not approved; empty where it is
 * @param approval who approved last, and when, in words; empty where nobody has
 * @param differences from what was approved last; none where it is the same, or nothing was approved
 * @param roleChanges since then
 * @param identities who answers now, by the names of the controllers; those that have not said it are not in it
 * @param hash of what would be approved now
 * @param head the newest record of the audit
 */
public record PermitsView(
        String trouble,
        String whyNotApproved,
        String approval,
        List<String> differences,
        List<String> roleChanges,
        Map<String, String> identities,
        String hash,
        String head,
        List<PermitRow> rows) {
    public PermitsView {
        differences = List.copyOf(differences);
        roleChanges = List.copyOf(roleChanges);
        identities = Map.copyOf(identities);
        rows = List.copyOf(rows);
    }

    static PermitsView inTrouble(String why) {
        return new PermitsView(why, why, "", List.of(), List.of(), Map.of(), "", "", List.of());
    }

    public boolean isApproved() {
        return whyNotApproved.isEmpty();
    }
}
