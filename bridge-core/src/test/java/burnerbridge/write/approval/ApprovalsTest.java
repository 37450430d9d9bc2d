package burnerbridge.write.approval;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.Seed;
import burnerbridge.site.Site;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class ApprovalsTest {
    private static final Instant AT = Instant.parse("2026-11-25T08:00:00.250Z");
    private static final String FILE = "approval";

    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
    private final Approvals approvals = new Approvals(disk);
    private final ApprovedItems items = ApprovedItems.of(RichSite.site(), RichSite.IDENTITIES);
    private final Approval approval = Approval.of(items, "A. Keeper", AT, false);

    @Test
    void nothingIsApprovedWhereNobodyDid() {
        assertThat(approvals.read()).isEqualTo(new ApprovalState.Never());
        assertThat(approvals.read().last()).isEmpty();
    }

    @Test
    void whatWasApprovedIsThereAfterAPowerCutToTheLastItem() throws IOException {
        approvals.write(approval);
        disk.crash();
        assertThat(new Approvals(disk).read()).isEqualTo(new ApprovalState.Stands(approval));
        assertThat(approval.covers(items)).isTrue();
        assertThat(approval.differences(items)).isEmpty();
        assertThat(approval.roleChanges(items)).isEmpty();
    }

    @Test
    void anApprovalThatWasWithdrawnOpensNothingAndIsKeptToCompareWith() throws IOException {
        approvals.withdraw("B. Keeper", AT, true);
        assertThat(approvals.read()).isEqualTo(new ApprovalState.Never());
        approvals.write(approval);
        approvals.withdraw("B. Keeper", AT.plusSeconds(5), true);
        disk.crash();
        ApprovalState withdrawn = new ApprovalState.Withdrawn(approval, "B. Keeper", AT.plusSeconds(5), true);
        assertThat(approvals.read()).isEqualTo(withdrawn);
        approvals.withdraw("C. Keeper", AT.plusSeconds(9), true);
        assertThat(approvals.read()).as("the first withdrawal stays").isEqualTo(withdrawn);
        assertThat(approvals.read().last()).contains(approval);
        approvals.write(approval);
        assertThat(approvals.read()).isInstanceOf(ApprovalState.Stands.class);
    }

    @Test
    void aDamagedApprovalIsNoneAndThatIsSaid() throws IOException {
        approvals.write(approval);
        byte[] whole = disk.look(FILE);
        String text = new String(whole, StandardCharsets.UTF_8);
        for (byte[] damaged : List.of(
                new byte[0],
                Arrays.copyOf(whole, whole.length - 1),
                text.replaceFirst("\"20 to 90\"", "\"20 to 99\"").getBytes(StandardCharsets.UTF_8))) {
            disk.meddle(FILE, damaged);
            assertThat(approvals.read())
                    .isInstanceOfSatisfying(
                            ApprovalState.Unreadable.class,
                            unreadable -> assertThat(unreadable.why()).contains("the file approval is damaged"));
        }
        disk.meddle(FILE, whole);
        disk.makeUnreadable(FILE);
        assertThat(approvals.read()).isInstanceOf(ApprovalState.Unreadable.class);
    }

    @Test
    void anApprovalWithoutANameOrWithAnotherHashIsNone() {
        assertThatThrownBy(() -> Approval.of(items, " ", AT, true)).hasMessageContaining("name");
        assertThatThrownBy(() -> new Approval(
                        "0".repeat(64), items.items(), "A. Keeper", AT, true, items.identities(), items.roles()))
                .hasMessageContaining("hash");
    }

    @Test
    void thereIsTheOldOrTheNewApprovalWhereverThePowerWent() throws IOException {
        Site site = RichSite.site();
        Approval other = Approval.of(
                ApprovedItems.of(site.with(site.permits().subList(0, 1)), RichSite.IDENTITIES), "B. Keeper", AT, true);
        for (int seed = 0; seed < 20; seed++) {
            for (int at = 1; at <= 3; at++) {
                ForgetfulDisk cut = new ForgetfulDisk(Seed.value() + seed);
                Approvals own = new Approvals(cut);
                cut.crashAt(at);
                ApprovalState before = new ApprovalState.Never();
                ApprovalState after = new ApprovalState.Stands(approval);
                try {
                    own.write(approval);
                    before = after;
                    after = new ApprovalState.Stands(other);
                    own.write(other);
                    before = after;
                    after = new ApprovalState.Withdrawn(other, "B. Keeper", AT, true);
                    own.withdraw("B. Keeper", AT, true);
                } catch (ForgetfulDisk.PowerCut e) {
                    cut.crash();
                }
                assertThat(own.read()).as("power cut at operation %d", at).isIn(before, after);
            }
        }
    }
}
