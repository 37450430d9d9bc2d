package burnerbridge.site.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.measure.IncommensurableException;
import javax.measure.UnitConverter;
import javax.measure.format.UnitFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import systems.uom.ucum.format.UCUMFormat;

/**
 * The table against an independent implementation of the Unified Code for Units of Measure: where that
 * is right, ours says the same; where it is not, the difference is written down here.
 */
class UnitsLibraryTest {
    private static final UnitFormat LIBRARY = UCUMFormat.getInstance(UCUMFormat.Variant.CASE_SENSITIVE);

    /** Codes that the library cannot read: powers of ten before a dot, the degree Rankine, pH. */
    private static final Set<String> UNREADABLE = Set.of(
            "10*3.[Btu_IT]",
            "10*6.[Btu_IT]",
            "10*3.[Btu_IT]/h",
            "10*6.[Btu_IT]/h",
            "10*3.[lb_av]/h",
            "[lb_av]/(10*6.[Btu_IT])",
            "10*-6",
            "10*-9",
            "[degR]",
            "[pH]");

    /** Codes of which the library, or the code itself, has another value: see the tests below. */
    private static final Set<String> DIFFERENT = Set.of("[HP]", "[Btu_th]", "mm[Hg]", "[in_i'Hg]");

    private static UnitConverter library(String code) {
        javax.measure.Unit<?> unit = LIBRARY.parse(code);
        try {
            return unit.getConverterToAny(unit.getSystemUnit());
        } catch (IncommensurableException e) {
            throw new AssertionError(e);
        }
    }

    private static double libraryFactor(String code) {
        UnitConverter converter = library(code);
        return converter.convert(1.0) - converter.convert(0.0);
    }

    static List<Unit> units() {
        return Unit.all().stream().filter(unit -> !unit.isDifference()).toList();
    }

    @ParameterizedTest
    @MethodSource("units")
    void theLibrarySaysTheSame(Unit unit) {
        for (String code : unit.ucumCodes()) {
            if (!UNREADABLE.contains(code) && !DIFFERENT.contains(code)) {
                for (double number : new double[] {-40, 0, 1, 36.6, 1e6}) {
                    double ours = unit.toSi().apply(BigDecimal.valueOf(number)).doubleValue();
                    assertThat(library(code).convert(number))
                            .as(number + " " + code)
                            .isCloseTo(ours, within(1e-13 * Math.max(300, Math.abs(ours))));
                    assertThat(libraryFactor(code) / factor(unit)).as(code).isCloseTo(1, within(1e-12));
                }
            }
        }
    }

    private static double factor(Unit unit) {
        return unit.toSi().applyToDifference(BigDecimal.ONE).doubleValue();
    }

    @Test
    void mostOfTheTableIsCompared() {
        List<String> codes = new ArrayList<>();
        units().forEach(unit -> codes.addAll(unit.ucumCodes()));
        assertThat(codes).containsAll(UNREADABLE).containsAll(DIFFERENT).hasSizeGreaterThan(120);
    }

    @Test
    void theLibrarysHorsepowerIsOneFootPoundForce() {
        assertThat(libraryFactor("[HP]")).isCloseTo(1.3558179483314, within(1e-12));
        assertThat(factor(Unit.of("hp"))).isCloseTo(745.69987158227, within(1e-10));
        assertThat(factor(Unit.of("hp")) / libraryFactor("[HP]")).isCloseTo(550, within(1e-9));
    }

    /** The code's own definitions are shorter than the exact ones of SP 811, by three millionths at most. */
    @ParameterizedTest
    @CsvSource({"Btu(th), [Btu_th], 1054.35", "mmHg, mm[Hg], 133.322", "inHg, [in_i'Hg], 3386.3788"})
    void theCodesDefinitionIsRounded(String symbol, String code, double rounded) {
        assertThat(libraryFactor(code)).isCloseTo(rounded, within(1e-9));
        assertThat(factor(Unit.of(symbol)) / rounded).isCloseTo(1, within(3e-6)).isNotEqualTo(1);
    }

    @ParameterizedTest
    @MethodSource("unreadable")
    void theLibraryCannotReadSomeCodes(String code) {
        assertThatThrownBy(() -> libraryFactor(code)).isInstanceOf(Exception.class);
    }

    static Set<String> unreadable() {
        return UNREADABLE;
    }

    /** What those are made of is compared all the same. */
    @Test
    void unreadableCodesAreComparedByTheirParts() {
        Map<String, Double> parts = Map.of(
                "kBtu", 1e3 * libraryFactor("[Btu_IT]"),
                "MMBtu", 1e6 * libraryFactor("[Btu_IT]"),
                "kBtu/h", 1e3 * libraryFactor("[Btu_IT]/h"),
                "MMBtu/h", 1e6 * libraryFactor("[Btu_IT]/h"),
                "klb/h", 1e3 * libraryFactor("[lb_av]/h"),
                "lb/MMBtu", 1e-6 * libraryFactor("[lb_av]/[Btu_IT]"));
        parts.forEach((symbol, expected) ->
                assertThat(factor(Unit.of(symbol)) / expected).as(symbol).isCloseTo(1, within(1e-12)));
    }
}
