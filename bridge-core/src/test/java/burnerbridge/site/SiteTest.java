package burnerbridge.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.site.Bindings.Binding;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SiteTest {

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "Boiler",
                "boiler_1",
                "-boiler",
                "boiler-",
                "boil er",
                "brûleur",
                "link",
                "ask",
                "_self",
                "#",
                "+",
                "a/b",
                "a+",
                "a#b",
                "a\u0000b",
                "a\nb",
                "$sys",
                "бойлер"
            })
    void aNameThatATopicCannotCarryIsRefused(String text) {
        assertThat(Name.objectionTo(text)).isNotEmpty();
        assertThatThrownBy(() -> new Name(text)).isInstanceOf(IllegalArgumentException.class);
    }

    @ParameterizedTest
    @ValueSource(strings = {"boiler-1", "a", "o2", "flue-gas-2-temperature", "link-2"})
    void lowerCaseWordsWithHyphensAreNames(String text) {
        assertThat(new Name(text).toString()).isEqualTo(text);
    }

    @Test
    void aBasisIsSaidWhereTheUnitAloneIsShown() {
        PointDefinition gas = Points.gauge("Gas before the valves");
        assertThat(gas.unitText()).isEqualTo("mbar gauge");
        assertThat(gas.descriptionWithBasis()).isEqualTo("Gas before the valves (gauge)");
        assertThat(Points.gauge("").descriptionWithBasis()).isEqualTo("(gauge)");
        assertThat(Points.uint16("starts", 7).unitText()).isEmpty();
        assertThat(Points.uint16("starts", 7).descriptionWithBasis()).isEmpty();
    }

    @Test
    void anInstanceIsTheControllersBaseAndTheBindingsOffset() {
        SitePoint point = Points.of(Points.controller(1, "boiler-2", 2, Points.uint16("starts", 7)))
                .get(0);
        Bindings bindings = new Bindings(
                List.of(new Binding(new Name("hot-water"), new Name("starts"), ObjectKind.ANALOG_INPUT, 5)));
        assertThat(bindings.instanceOf(point)).hasValue(2005);
        assertThat(Bindings.NONE.instanceOf(point)).isEmpty();
        Bindings otherKind = new Bindings(
                List.of(new Binding(new Name("hot-water"), new Name("starts"), ObjectKind.BINARY_INPUT, 5)));
        assertThat(otherKind.instanceOf(point)).isEmpty();
    }

    @Test
    void aPointPastTheEndOfItsTableIsRefused() {
        assertThatThrownBy(() -> Points.point(
                        "flow",
                        RegisterTable.INPUT_REGISTER,
                        65535,
                        new PointFormat.Floating(32, WordOrder.HIGH_WORD_FIRST),
                        Scaling.NONE,
                        States.NONE))
                .hasMessageContaining("does not fit");
    }
}
