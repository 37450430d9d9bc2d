package burnerbridge.site.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class UnitTableTest {
    private static final String BAR = "bar;bar;pressure;absolute;100000;0;55;;;;B.8 bar";

    @ParameterizedTest
    @CsvSource({
        "Cel, °C",
        "[degF], °F",
        "[psi], psi",
        "[in_i'H2O], inH2O",
        "kW.h, kWh",
        "L/min, l/min",
        "[ft_i]3, ft3",
        "[Btu_IT]/h, Btu/h",
        "uS/cm, µS/cm",
        "deg, °",
        "m3/h, m3/h"
    })
    void aUnitIsFoundByItsCodeToo(String code, String symbol) {
        assertThat(Unit.find(code)).contains(Unit.of(symbol));
    }

    @ParameterizedTest
    @CsvSource({"m³/h, m3/h", "\u2103, °C", "\u2109, °F", "\u03BCA, µA", "k\u2126, kΩ", "\u00BAC, °C", "mm²/s, mm2/s"})
    void signsThatLookAlikeAreTheSame(String written, String symbol) {
        assertThat(Unit.find(written)).contains(Unit.of(symbol));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "C", "PSI", "[Btu]", "kw", "{rpm}", "m3/hr", " bar"})
    void anythingElseIsNoUnit(String written) {
        assertThat(Unit.find(written)).isEmpty();
    }

    @Test
    void everyWayBackIsExact() {
        for (Unit from : Unit.all()) {
            for (Unit to : Unit.all()) {
                if (from.canBeShownAs(to)) {
                    assertThat(from.to(to).then(to.to(from)))
                            .as(from + " " + to)
                            .isEqualTo(Linear.IDENTITY);
                }
            }
        }
    }

    @Test
    void aQuantityIsNeverShownAsAnother() {
        Unit celsius = Unit.of("°C");
        assertThat(celsius.canBeShownAs(Unit.of("bar"))).isFalse();
        assertThat(celsius.canBeShownAs(Unit.of("°F").ofDifference())).isFalse();
        assertThat(Unit.of("Nm").canBeShownAs(Unit.of("J"))).isFalse();
        assertThatThrownBy(() -> celsius.to(Unit.of("bar")))
                .hasMessage("°C (a temperature) cannot be shown as bar (a pressure)");
    }

    @Test
    void onlyTemperaturesAreTwoThingsUnderOneSymbol() {
        assertThat(Unit.all().stream().filter(Unit::isDifference).map(Unit::quantity))
                .containsOnly(Quantity.TEMPERATURE)
                .hasSize(4);
        assertThat(Unit.of("bar").ofDifference()).isSameAs(Unit.of("bar"));
    }

    /** A spelling that is refused with a hint must neither be a unit nor hint at two. */
    @Test
    void refusedSpellingsAreClear() {
        Set<String> seen = new HashSet<>();
        for (Unit unit : Unit.all()) {
            for (String spelling : unit.oftenWritten()) {
                String[] parts = spelling.split("=", -1);
                assertThat(Unit.find(parts[0])).as(spelling).isEmpty();
                assertThat(seen.add(parts[0].toLowerCase(Locale.ROOT).replaceAll("[ .]", "")))
                        .as(spelling)
                        .isTrue();
                if (parts.length > 1) {
                    assertThat(Basis.Word.ofWord(parts[1]))
                            .hasValueSatisfying(
                                    word -> assertThat(unit.quantity().allows(word))
                                            .as(spelling)
                                            .isTrue());
                }
            }
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "°C | IMPERIAL | °F",
                "bar | IMPERIAL | psi",
                "mbar | IMPERIAL | inH2O",
                "kW | IMPERIAL | kW",
                "psi | METRIC | bar",
                "MMBtu/h | METRIC | MW",
                "°C | METRIC | °C",
                "K | IMPERIAL | K",
                "psi | AS_WRITTEN | psi"
            })
    void aSiteIsShownInItsOwnUnits(String unit, UnitSystem system, String shown) {
        assertThat(system.shown(Unit.of(unit), Basis.NONE)).isEqualTo(Unit.of(shown));
    }

    @Test
    void aDifferenceStaysOneInTheOtherSystem() {
        assertThat(UnitSystem.IMPERIAL.shown(Unit.of("K").ofDifference(), Basis.NONE))
                .isEqualTo(Unit.of("°F").ofDifference());
    }

    @Test
    void aGasAtAReferenceStateKeepsItsUnit() {
        Basis normal = new Basis(Set.of(Basis.Word.DRY, Basis.Word.NORMAL));
        assertThat(normal.text()).isEqualTo("dry normal");
        assertThat(UnitSystem.IMPERIAL.shown(Unit.of("m3/h"), normal)).isEqualTo(Unit.of("m3/h"));
    }

    @Test
    void aBasisIsNeverTwoThatExcludeEachOther() {
        assertThatThrownBy(() -> new Basis(Set.of(Basis.Word.WET, Basis.Word.DRY)))
                .hasMessageContaining("wet dry");
    }

    @Test
    void aSoundTableIsRead() {
        assertThat(UnitTable.read(List.of("# why", "header", BAR)).units()).hasSize(1);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "100000;0 | 100000 | must have 11 cells (was 10)",
                "100000;0 | 1e5x;0 | units.csv:2",
                "100000;0 | -1;0 | factor must be more than 0",
                "100000;0 | 1/0;0 | units.csv:2",
                "pressure | presure | presure",
                "absolute | gauge | kind must be absolute or difference (was gauge)",
                "55 | fifty | units.csv:2",
                "B.8 bar | '' | symbol and source must not be empty",
                "55;;; | 55;;psi; | bar (a pressure) cannot be shown as 'psi'"
            })
    void aTableThatIsDamagedIsNeverHalfRead(String from, String to, String expected) {
        List<String> lines = List.of("header", BAR.replace(from, to));
        assertThatThrownBy(() -> UnitTable.read(lines))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining(expected);
    }

    @Test
    void twoUnitsOfOneNameAreRefused() {
        assertThatThrownBy(() -> UnitTable.read(List.of("header", BAR, BAR))).hasMessage("two units are written 'bar'");
    }
}
