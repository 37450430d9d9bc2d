package burnerbridge.bacnet.plan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.Plant;
import burnerbridge.model.HandClock;
import burnerbridge.site.Bindings;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.ObjectNames;
import burnerbridge.site.PointOptions;
import burnerbridge.site.SitePoint;
import java.util.List;
import org.junit.jupiter.api.Test;

final class ObjectPlanTest {
    private final Plant plant = new Plant(new HandClock());

    private ObjectPlan plan(Bindings.Binding... bindings) {
        return ObjectPlan.of(plant.siteWith(new Bindings(List.of(bindings))), ObjectChoices.USUAL);
    }

    private static String whyOff(ObjectPlan plan, String id) {
        return plan.off().stream()
                .filter(o -> o.point().id().toString().equals(id))
                .map(ObjectPlan.PointOff::why)
                .findFirst()
                .orElse("");
    }

    @Test
    void everyBoundPointIsServedAtItsControllersBasePlusItsOffset() {
        ObjectPlan plan = ObjectPlan.of(plant.site, ObjectChoices.USUAL);
        assertThat(plan.served().stream().map(s -> s.point().id() + " " + s.instance()))
                .contains("boiler-1.flue-temperature 5", "boiler-2.flue-temperature 1005", "boiler-2.phase 1020")
                .hasSize(14);
        assertThat(plan.off()).hasSize(4);
    }

    @Test
    void aPointWithoutABindingOrAnObjectStaysOff() {
        ObjectPlan plan = ObjectPlan.of(plant.site, ObjectChoices.USUAL);
        assertThat(whyOff(plan, "boiler-1.not-bound")).isEqualTo("it is not bound to an object");
        assertThat(whyOff(plan, "boiler-2.curve-1")).isEqualTo("its row says that it has no object");
    }

    @Test
    void aPointBoundAsAnotherKindStaysOff() {
        ObjectPlan plan = plan(Plant.binding("flame", ObjectKind.ANALOG_INPUT, 1));
        assertThat(whyOff(plan, "boiler-1.flame")).isEqualTo("it is bound as analog-input but is binary-input");
    }

    @Test
    void aMultiStatePointWithoutNumbersStaysOff() {
        ObjectPlan plan = plan(Plant.binding("phase", ObjectKind.MULTI_STATE_INPUT, 1));
        assertThat(whyOff(plan, "boiler-1.phase")).isEqualTo("none of its states has a multi-state number");
    }

    @Test
    void aSecondPointOnOneInstanceStaysOffAndTheFirstStays() {
        ObjectPlan plan = plan(
                Plant.binding("fuel", ObjectKind.ANALOG_INPUT, 7), Plant.binding("oxygen", ObjectKind.ANALOG_INPUT, 7));
        assertThat(plan.served().get(0).point().id()).hasToString("boiler-1.fuel");
        assertThat(whyOff(plan, "boiler-1.oxygen")).isEqualTo("analog-input 7 is boiler-1.fuel already");
    }

    @Test
    void oneNumberMayServeTwoTypes() {
        ObjectPlan plan = plan(
                Plant.binding("fuel", ObjectKind.ANALOG_INPUT, 7), Plant.binding("flame", ObjectKind.BINARY_INPUT, 7));
        assertThat(plan.served()).hasSize(4);
    }

    @Test
    void anInstanceThatTheStandardDoesNotHaveStaysOff() {
        ObjectPlan plan = plan(Plant.binding("fuel", ObjectKind.ANALOG_INPUT, 4_193_303));
        assertThat(whyOff(plan, "boiler-1.fuel")).isEmpty();
        assertThat(whyOff(plan, "boiler-2.fuel")).isEqualTo("an instance is 0 to 4194302 (was 4194303)");
    }

    @Test
    void eachControllerHasAnObjectThatTellsWhetherItAnswersAndAView() {
        ObjectPlan plan = ObjectPlan.of(plant.site, ObjectChoices.USUAL);
        assertThat(plan.controllers().stream().map(c -> c.instance() + " " + c.answers() + " " + c.view()))
                .containsExactly(
                        "0 Optional[boiler-1.link] Optional[boiler-1]",
                        "1000 Optional[boiler-2.link] Optional[boiler-2]");
        assertThat(plan.count()).isEqualTo(18);
    }

    @Test
    void aPointTakesThePlaceOfWhatTheBridgeAdds() {
        ObjectPlan plan = plan(Plant.binding("flame", ObjectKind.BINARY_INPUT, 1000));
        assertThat(plan.controllers().get(1).answers()).isEmpty();
        assertThat(plan.controllers().get(1).view()).hasValue("boiler-2");
    }

    @Test
    void theOldestClientsSeeNoView() {
        ObjectPlan plan = ObjectPlan.of(plant.site, new ObjectChoices(true, ObjectNames.USUAL));
        assertThat(plan.controllers()).allSatisfy(c -> assertThat(c.view()).isEmpty());
    }

    @Test
    void namesFollowTheTemplateUnlessTheRowHasOne() {
        ObjectNames names = new ObjectNames("B/{point}/{controller}");
        ObjectPlan plan = ObjectPlan.of(plant.site, new ObjectChoices(false, names));
        assertThat(plan.served().get(0).name()).isEqualTo("B/flue-temperature/boiler-1");
        SitePoint fuel = plant.point("fuel");
        SitePoint named = new SitePoint(
                0, fuel.controller(), fuel.definition().with(PointOptions.objectName("Gas of {controller}")));
        assertThat(names.of(named)).isEqualTo("Gas of boiler-1");
    }
}
