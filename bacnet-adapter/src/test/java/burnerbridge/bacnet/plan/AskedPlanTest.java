package burnerbridge.bacnet.plan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.PermittedPlant;
import burnerbridge.bacnet.Plant;
import burnerbridge.model.HandClock;
import burnerbridge.site.Bindings;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.States;
import burnerbridge.site.permit.WritePermit;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Where the objects of permits stand, and which permits have none. */
final class AskedPlanTest {
    private final Plant plant = PermittedPlant.plant(new HandClock());
    private final Site permitted = PermittedPlant.permitted(plant);

    private static ObjectPlan plan(Site site) {
        return ObjectPlan.of(site, ObjectChoices.USUAL);
    }

    /** With these bindings instead of those of the same points, or beside them. */
    private ObjectPlan plan(Bindings.Binding... others) {
        List<Bindings.Binding> all = new ArrayList<>(plant.site.bindings().entries());
        all.addAll(List.of(others));
        return plan(plant.siteWith(new Bindings(all)).with(permitted.permits()));
    }

    private static List<String> asked(ObjectPlan plan) {
        return plan.asked().stream()
                .map(one -> one.name() + " " + one.kind().word() + " " + one.instance()
                        + one.lease()
                                .map(lease -> ", " + lease.name() + " " + lease.instance())
                                .orElse(""))
                .toList();
    }

    private static String whyMute(ObjectPlan plan, String point) {
        return plan.mute().stream()
                .filter(one -> one.point().id().toString().equals("boiler-1." + point))
                .map(ObjectPlan.PointOff::why)
                .findFirst()
                .orElse("");
    }

    @Test
    void eachPermitThatOthersAskForHasItsObjectsWhereTheyAreBound() {
        ObjectPlan plan = plan(permitted);
        assertThat(asked(plan))
                .containsExactly(
                        "boiler-1.demand-request analog-value 50, boiler-1.demand-lease 60",
                        "boiler-1.enable-request binary-value 51, boiler-1.enable-lease 61",
                        "boiler-1.mode-request multi-state-value 52, boiler-1.mode-lease 62",
                        "boiler-1.record-request analog-value 53");
        assertThat(plan.mute()).isEmpty();
        assertThat(plan.count()).isEqualTo(plan(plant.site).count() + 7);
    }

    @Test
    void whatIsNotBoundCannotBeAskedForAndALeaseThatIsNotIsLeftOut() {
        ObjectPlan plan = plan(
                Plant.binding("demand-request", ObjectKind.BINARY_VALUE, 50),
                Plant.binding("enable-lease", ObjectKind.BINARY_VALUE, 61));
        assertThat(whyMute(plan, "demand")).isEqualTo("its request object is not bound to an instance");
        assertThat(asked(plan))
                .contains("boiler-1.enable-request binary-value 51")
                .hasSize(3);
    }

    @Test
    void aPointOnTheSameInstanceGoesBefore() {
        Plant with = new Plant(
                new HandClock(),
                ZoneOffset.UTC,
                List.of(
                        plant.point("demand").definition(),
                        Plant.point("set-point", PointFormat.UINT16, "1", "0", States.NONE, ObjectKind.ANALOG_VALUE)),
                new Bindings(List.of(
                        Plant.binding("demand", ObjectKind.ANALOG_INPUT, 5),
                        Plant.binding("demand-request", ObjectKind.ANALOG_VALUE, 50),
                        Plant.binding("set-point", ObjectKind.ANALOG_VALUE, 50))));
        ObjectPlan plan = plan(with.site.with(permitted.permits().subList(0, 1)));
        assertThat(whyMute(plan, "demand")).isEqualTo("analog-value 50 is boiler-1.set-point already");
        assertThat(plan.served().stream().map(one -> one.name() + " " + one.instance()))
                .contains("boiler-1.demand 5", "boiler-1.set-point 50");
    }

    @Test
    void aRowThatHasTheNameIsNoRequestObject() {
        Plant with = new Plant(
                new HandClock(),
                ZoneOffset.UTC,
                List.of(
                        plant.point("demand").definition(),
                        Plant.point(
                                "demand-request", PointFormat.UINT16, "1", "0", States.NONE, ObjectKind.ANALOG_VALUE)),
                new Bindings(List.of(
                        Plant.binding("demand", ObjectKind.ANALOG_INPUT, 5),
                        Plant.binding("demand-request", ObjectKind.ANALOG_VALUE, 50))));
        ObjectPlan plan = plan(with.site.with(permitted.permits().subList(0, 1)));
        assertThat(plan.asked()).isEmpty();
        assertThat(plan.mute()).hasSize(1);
        assertThat(plan.served().stream().map(ObjectPlan.Served::name)).contains("boiler-1.demand-request");
    }

    @Test
    void statesWithoutNumbersCannotBeAskedFor() {
        ObjectPlan plan = plan(Plant.binding("mode", ObjectKind.MULTI_STATE_INPUT, 7));
        assertThat(whyMute(plan, "mode")).isEqualTo("it has no multi-state object, whose numbers it would have");
    }

    @Test
    void aNameThatWouldBeTooLongIsTold() {
        String name = "a".repeat(60);
        Plant with = new Plant(
                new HandClock(),
                ZoneOffset.UTC,
                List.of(Plant.point(name, PointFormat.UINT16, "1", "0", States.NONE, ObjectKind.ANALOG_INPUT)),
                new Bindings(List.of(Plant.binding(name, ObjectKind.ANALOG_INPUT, 5))));
        WritePermit demand = permitted.permits().get(0);
        WritePermit longer = new WritePermit(
                new PointId(new Name("boiler-1"), new Name(name)),
                demand.purpose(),
                demand.function(),
                demand.storage(),
                demand.reason());
        ObjectPlan plan = plan(with.site.with(List.of(longer)));
        assertThat(whyMute(plan, name)).isEqualTo("its name with -request would be too long");
        assertThat(Optional.of(plan.asked())).contains(List.of());
    }
}
