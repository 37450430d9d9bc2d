package burnerbridge.write;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.Site;
import burnerbridge.write.approval.Approval;
import burnerbridge.write.approval.ApprovalState;
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

    Authority {
        identities = Map.copyOf(identities);
    }

    static Authority of(Site site, ApprovalState state) {
        if (state instanceof ApprovalState.Stands stands) {
            return of(site, stands.approval());
        }
        if (state instanceof ApprovalState.Withdrawn withdrawn) {
            return none(withdrawn.by() + " has withdrawn the approval");
        }
        return none(
                state instanceof ApprovalState.Unreadable unreadable
                        ? "the approval cannot be read: " + unreadable.why()
                        : "no person has approved it yet (burner-bridge permits)");
    }

    private static Authority of(Site site, Approval approval) {
        ApprovedItems now = ApprovedItems.of(site, approval.identities());
        if (approval.covers(now)) {
            return new Authority(Optional.of(now.hash()), "", approval.identities());
        }
        List<String> differences = approval.differences(now);
        String more = differences.size() > MOST_TOLD ? "; and " + (differences.size() - MOST_TOLD) + " more" : "";
        return none("what was approved is not what stands here now: "
                + String.join("; ", differences.subList(0, Math.min(MOST_TOLD, differences.size()))) + more);
    }

    static Authority none(String why) {
        return new Authority(Optional.empty(), why, Map.of());
    }

    /** The identity under which a controller was approved; empty where none was. */
    Optional<String> identity(ControllerDefinition controller) {
        return Optional.ofNullable(identities.get(controller.name()));
    }

    boolean isInForce() {
        return hash.isPresent();
    }
}
