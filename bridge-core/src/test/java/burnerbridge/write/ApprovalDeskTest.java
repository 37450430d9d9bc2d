package burnerbridge.write;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.Role;
import burnerbridge.site.Site;
import burnerbridge.site.TypeOptions;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ApprovalDesk.CannotApproveException;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;

/** Ways to get round what was once protected or approved, and in which words each is refused. */
class ApprovalDeskTest {
    private final HandClock clock = new HandClock();
    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
    private final Site usual = GateRig.site(List.of(GateRig.load(GateRig.LOAD)));

    private ApprovalDesk desk(Site site, String first, String second) throws IOException {
        ValueTable table = new ValueTable(site.points(), site.owners());
        GateRig.identify(table, clock, "boiler-1", first);
        GateRig.identify(table, clock, "boiler-2", second);
        return ApprovalDesk.open(site, disk, table, clock);
    }

    private static Site changed(Site site, UnaryOperator<ControllerType> change) {
        List<ControllerDefinition> controllers = site.controllers().stream()
                .map(one -> new ControllerDefinition(
                        one.ordinal(), one.name(), one.source(), change.apply(one.type()), one.instanceBase()))
                .toList();
        return new Site(
                        site.name(),
                        "",
                        ZoneOffset.UTC,
                        site.lines(),
                        controllers,
                        site.bindings(),
                        Optional.empty(),
                        Optional.empty())
                .with(site.permits());
    }

    private static ControllerType withRows(ControllerType type, UnaryOperator<PointDefinition> change) {
        return new ControllerType(
                type.name(), type.points().stream().map(change).toList(), type.rules(), type.options());
    }

    /** The row of the high limit is a demand now, and nothing is protected but what another row needs. */
    private static ControllerType relabelled(ControllerType type) {
        ControllerType rows =
                withRows(type, row -> row.name().text().equals("high-limit") ? Points.as(Role.DEMAND, row) : row);
        return unguarded(rows);
    }

    private static ControllerType unguarded(ControllerType type) {
        TypeOptions options = type.options();
        return new ControllerType(
                type.name(),
                type.points(),
                type.rules(),
                new TypeOptions(options.identity(), options.watchdog(), options.readable(), List.of(), true));
    }

    @Test
    void whatWasApprovedIsInForceAfterARestart() throws Exception {
        desk(usual, "S1", "S2").approve("a person", Optional.empty());
        assertThat(desk(usual, "S1", "S2").whyNotApproved()).isEmpty();
    }

    @Test
    void aSafetySettingThatIsCalledADemandStaysProtected() throws Exception {
        desk(usual, "S1", "S2").approve("a person", Optional.empty());
        Site cunning = changed(GateRig.site(List.of(GateRig.load(GateRig.LIMIT))), ApprovalDeskTest::relabelled);

        ApprovalDesk desk = desk(cunning, "S1", "S2");

        assertThat(desk.whyNotApproved()).get().asString().contains("what was approved is not what stands here now");
        assertThat(desk.state().last().orElseThrow().roleChanges(desk.items()))
                .contains("high-limit of boiler-1 had role safety-setting and has role demand");
        assertThatThrownBy(() -> desk.approve("a person", Optional.empty()))
                .isInstanceOf(CannotApproveException.class)
                .hasMessageContaining("boiler-1.high-limit at holding-register 7 (wire 6) meets what is never written")
                .hasMessageContaining("once protected");
    }

    @Test
    void aProtectedRangeThatIsTakenOutStaysProtected() throws Exception {
        desk(usual, "S1", "S2").approve("a person", Optional.empty());
        Site cunning = changed(
                GateRig.site(List.of(GateRig.load(GateRig.id("boiler-1", "alias")))),
                type -> unguarded(withoutRow(type, "high-limit")));

        assertThatThrownBy(() -> desk(cunning, "S1", "S2").approve("a person", Optional.empty()))
                .isInstanceOf(CannotApproveException.class)
                .hasMessageContaining("boiler-1.alias at holding-register 7 (wire 6) meets what is never written")
                .hasMessageContaining("once protected");
    }

    private static ControllerType withoutRow(ControllerType type, String name) {
        return new ControllerType(
                type.name(),
                type.points().stream()
                        .filter(row -> !row.name().text().equals(name))
                        .toList(),
                type.rules(),
                type.options());
    }

    @Test
    void tablesThatAreNoLongerStatedToBeSeparateAreNoLongerApproved() throws Exception {
        desk(usual, "S1", "S2").approve("a person", Optional.empty());
        Site overlaid = changed(
                usual,
                type -> new ControllerType(
                        type.name(),
                        type.points(),
                        type.rules(),
                        new TypeOptions(
                                type.options().identity(),
                                type.options().watchdog(),
                                type.options().readable(),
                                type.options().guarded(),
                                false)));
        assertThat(desk(overlaid, "S1", "S2").whyNotApproved()).get().asString().contains("separate");
    }

    @Test
    void whoeverHasNotSaidWhoHeIsIsNotApproved() {
        assertThatThrownBy(() -> ApprovalDesk.open(usual, disk, new ValueTable(usual.points(), usual.owners()), clock)
                        .approve("a person", Optional.empty()))
                .isInstanceOf(CannotApproveException.class)
                .hasMessageContaining("who answers as boiler-1 is not known");
    }

    @Test
    void twoThatSayThatTheyAreTheSameAreNotApproved() {
        assertThatThrownBy(() -> desk(usual, "S1", "S1").approve("a person", Optional.empty()))
                .isInstanceOf(CannotApproveException.class)
                .hasMessage("boiler-1 and boiler-2 both say that they are S1");
    }

    @Test
    void anotherThanWhatThePersonSawIsNotApproved() {
        assertThatThrownBy(() -> desk(usual, "S1", "S2").approve("a person", Optional.of("0".repeat(64))))
                .isInstanceOf(CannotApproveException.class)
                .hasMessageContaining("not what was shown");
    }

    @Test
    void whatIsWithdrawnIsNoLongerInForceAndSaysByWhom() throws Exception {
        ApprovalDesk desk = desk(usual, "S1", "S2");
        desk.approve("a person", Optional.empty());
        desk.withdraw("another person");
        assertThat(desk(usual, "S1", "S2").whyNotApproved()).contains("another person has withdrawn the approval");
    }

    @Test
    void aSwappedControllerIsAnotherAddressBookAndIsApprovedAnew() throws Exception {
        desk(usual, "S1", "S2").approve("a person", Optional.empty());
        ApprovalDesk desk = desk(usual, "S9", "S2");
        assertThat(desk.state().last().orElseThrow().differences(desk.items()))
                .containsExactly("controller boiler-1: identity was 'S1', is 'S9'");
        desk.approve("a person", Optional.empty());
        assertThat(desk.whyNotApproved()).isEmpty();
    }
}
