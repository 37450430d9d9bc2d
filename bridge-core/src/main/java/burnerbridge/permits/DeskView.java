package burnerbridge.permits;

import burnerbridge.model.BitValue;
import burnerbridge.model.Reading;
import burnerbridge.model.Value;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ApprovalDesk;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.approval.Approval;
import burnerbridge.write.approval.ApprovalState;
import burnerbridge.write.approval.ApprovedItems;
import burnerbridge.write.memory.PointMemory;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What a desk and a value table know of permits. */
final class DeskView {
    private static final long SECOND = 1_000_000_000L;

    private DeskView() {}

    /** @param statuses of a gate that runs; none where there is none */
    static PermitsView of(ApprovalDesk desk, Site site, ValueTable table, List<PermitStatus> statuses) {
        Map<Name, String> answering = desk.identitiesNow();
        ApprovedItems now = ApprovedItems.of(site, answering);
        ApprovalState state = desk.state();
        Map<String, String> identities = new LinkedHashMap<>();
        answering.forEach((controller, identity) -> identities.put(controller.text(), identity));
        Optional<Approval> last = state.last();
        return new PermitsView(
                "",
                desk.whyNotApproved(state).orElse(""),
                words(state),
                last.map(approval -> approval.differences(now)).orElse(List.of()),
                last.map(approval -> approval.roleChanges(now)).orElse(List.of()),
                identities,
                now.hash(),
                desk.head().toString(),
                rows(desk, site, table, statuses));
    }

    private static String words(ApprovalState state) {
        if (state instanceof ApprovalState.Withdrawn withdrawn) {
            return "withdrawn by " + withdrawn.by() + " on " + time(withdrawn.at()) + unsure(withdrawn.believed());
        }
        return state.last()
                .map(approval ->
                        "approved by " + approval.by() + " on " + time(approval.at()) + unsure(approval.believed()))
                .orElse("");
    }

    private static String time(Instant at) {
        return at.truncatedTo(ChronoUnit.SECONDS).toString();
    }

    private static String unsure(boolean believed) {
        return believed ? "" : " (by a clock that was not believed)";
    }

    private static List<PermitRow> rows(ApprovalDesk desk, Site site, ValueTable table, List<PermitStatus> statuses) {
        List<PermitRow> rows = new ArrayList<>();
        for (WritePermit permit : site.permits()) {
            PointId id = permit.point();
            PointMemory kept = desk.memoryOf(id);
            Optional<PermitStatus> status =
                    statuses.stream().filter(one -> one.point().equals(id)).findFirst();
            rows.add(new PermitRow(
                    id.toString(),
                    value(table, id),
                    status.map(DeskView::slots).orElse(List.of()),
                    status.map(PermitStatus::held).orElse(""),
                    status.map(PermitStatus::asleep)
                            .orElse(kept.asleep()
                                    .map(PointMemory.Asleep::reason)
                                    .orElse("")),
                    kept.owed(),
                    kept.spent()));
        }
        return rows;
    }

    private static List<String> slots(PermitStatus status) {
        return status.slots().stream()
                .map(slot -> "slot " + slot.slot() + ": " + slot.value().toPlainString() + " by "
                        + slot.source().text()
                        + (slot.left().isPresent() ? ", for " + slot.left().getAsLong() / SECOND + " s more" : ""))
                .toList();
    }

    private static String value(ValueTable table, PointId id) {
        SitePoint point = table.points().stream()
                .filter(one -> one.id().equals(id))
                .findFirst()
                .orElseThrow();
        Reading reading = table.reading(point);
        Value value = reading.value();
        String unit = point.definition().unitText();
        String state = value instanceof BitValue bit
                ? point.definition()
                        .states()
                        .text(bit.on() ? 1 : 0)
                        .map(text -> " " + text)
                        .orElse("")
                : "";
        return value == null
                ? "not known: " + reading.reason().word()
                : value.text()
                        + state
                        + (unit.isEmpty() ? "" : " " + unit)
                        + (reading.isGood() ? "" : ", " + reading.reason().word());
    }
}
