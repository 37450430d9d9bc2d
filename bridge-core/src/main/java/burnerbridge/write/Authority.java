package burnerbridge.write;

import burnerbridge.site.Name;
import burnerbridge.site.Site;
import burnerbridge.write.approval.Approval;
import burnerbridge.write.approval.ApprovedItems;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Whether what the bridge would do is what a person has approved.
 *
 * @param hash of what is in force; empty where nothing is
 * @param why nothing is in force, for people; empty where something is
 * @param identities of the controllers concerned, as they were approved
 */
record Authority(Optional<String> hash, String why, Map<Name, String> identities) {
    /** More differences help nobody. */
    private static final int MOST_TOLD = 3;

    static Authority of(Site site, Optional<Approval> approval) {
        if (approval.isEmpty()) {
            return none("no person has approved it yet (burner-bridge permits)");
        }
        ApprovedItems now = ApprovedItems.of(site, approval.get().identities());
        if (now.hash().equals(approval.get().hash())) {
            return new Authority(Optional.of(now.hash()), "", approval.get().identities());
        }
        List<String> differences = approval.get().differences(now);
        String more = differences.size() > MOST_TOLD ? "; and " + (differences.size() - MOST_TOLD) + " more" : "";
        return none("what was approved is not what stands here now: "
                + String.join("; ", differences.subList(0, Math.min(MOST_TOLD, differences.size()))) + more);
    }

    static Authority none(String why) {
        return new Authority(Optional.empty(), why, Map.of());
    }

    boolean isInForce() {
        return hash.isPresent();
    }
}
