package burnerbridge.site.unit;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Factors of NIST SP 811 (2008), Appendix B.8, typed as they are printed there, each with its entry. The
 * numbers were compared with a public transcription of the list, not with the printed page; those
 * marked "memory" are in no line of that transcription.
 */
class PublishedFactorsTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "psi               | Pa    | 6.894757E+03 | psi (pound-force per square inch)",
                "inH2O             | Pa    | 2.490889E+02 | inch of water, conventional",
                "inH2O@4°C         | Pa    | 2.49082E+02  | inch of water (39.2 °F)",
                "inH2O@60°F        | Pa    | 2.4884E+02   | inch of water (60 °F)",
                "ftH2O             | Pa    | 2.989067E+03 | foot of water, conventional",
                "mmH2O             | Pa    | 9.80665E+00  | millimeter of water, conventional",
                "cmH2O             | Pa    | 9.80665E+01  | centimeter of water, conventional",
                "mmHg              | Pa    | 1.333224E+02 | millimeter of mercury, conventional",
                "inHg              | Pa    | 3.386389E+03 | inch of mercury, conventional",
                "atm               | Pa    | 1.01325E+05  | atmosphere, standard",
                "kgf/cm2           | Pa    | 9.80665E+04  | kilogram-force per square centimeter",
                "mbar              | Pa    | 1.0E+02      | millibar",
                "bar               | Pa    | 1.0E+05      | bar",
                "Btu               | J     | 1.055056E+03 | British thermal unit IT",
                "Btu(th)           | J     | 1.054350E+03 | British thermal unit th",
                "Btu/h             | W     | 2.930711E-01 | British thermal unit IT per hour",
                "therm             | J     | 1.054804E+08 | therm (U.S.)",
                "therm(EC)         | J     | 1.05506E+08  | therm (EC)",
                "hp(boiler)        | W     | 9.80950E+03  | horsepower (boiler)",
                "hp                | W     | 7.456999E+02 | horsepower (550 ft lbf/s)",
                "TR                | W     | 3.516853E+03 | ton of refrigeration (12 000 Btu IT/h)",
                "kWh               | J     | 3.6E+06      | kilowatt hour",
                "Wh                | J     | 3.6E+03      | watt hour",
                "kcal              | J     | 4.1868E+03   | kilocalorie IT",
                "gal               | m3    | 3.785412E-03 | gallon (U.S.)",
                "gal(UK)           | m3    | 4.54609E-03  | gallon [Canadian and U.K. (Imperial)]",
                "ft3               | m3    | 2.831685E-02 | cubic foot",
                "l                 | m3    | 1.0E-03      | liter",
                "ft3/min           | m3/s  | 4.719474E-04 | cubic foot per minute",
                "ft3/s             | m3/s  | 2.831685E-02 | cubic foot per second",
                "gal/min           | m3/s  | 6.309020E-05 | gallon (U.S.) per minute",
                "lb                | kg    | 4.535924E-01 | pound (avoirdupois)",
                "lb/h              | kg/s  | 1.259979E-04 | pound per hour",
                "lb/min            | kg/s  | 7.559873E-03 | pound per minute",
                "lb/s              | kg/s  | 4.535924E-01 | pound per second",
                "lb/ft3            | kg/m3 | 1.601846E+01 | pound per cubic foot",
                "Btu/lb            | kJ/kg | 2.326E+00    | British thermal unit IT per pound, in J/kg",
                "Btu/ft3           | kJ/m3 | 3.725895E+01 | British thermal unit IT per cubic foot, in J/m3",
                "in                | m     | 2.54E-02     | inch",
                "ft                | m     | 3.048E-01    | foot",
                "ft2               | m2    | 9.290304E-02 | square foot",
                "ft/min            | m/s   | 5.08E-03     | foot per minute (memory)",
                "ft/s              | m/s   | 3.048E-01    | foot per second (memory)",
                "°                 | rad   | 1.745329E-02 | degree (angle)",
                "h                 | s     | 3.6E+03      | hour",
                "d                 | s     | 8.64E+04     | day",
                "t                 | kg    | 1.0E+03      | ton, metric"
            })
    void aFactorIsTheOneThatIsPrinted(String unit, String si, BigDecimal printed, String entry) {
        BigDecimal factor = Unit.of(unit).to(Unit.of(si)).applyToDifference(BigDecimal.ONE);
        assertThat(factor.round(new MathContext(printed.precision(), RoundingMode.HALF_UP)))
                .as(entry)
                .isEqualByComparingTo(printed);
    }

    /** The other way round, by hand from the factors above: what somebody reads off two gauges. */
    @ParameterizedTest
    @CsvSource({
        "1, bar, psi, 14.50377",
        "1, mbar, inH2O, 0.4014631",
        "1, mbar, inH2O@60°F, 0.4018647",
        "1, kPa, inH2O@4°C, 4.014742",
        "1, hp(boiler), kBtu/h, 33.47140",
        "1, therm, kWh, 29.30011",
        "1, m3, ft3, 35.31467",
        "1, m3/h, ft3/min, 0.5885778",
        "1, t/h, klb/h, 2.204623",
        "1, MMBtu/h, kW, 293.0711",
        "1, l, gal, 0.2641721"
    })
    void gaugesOfTwoWorldsAgree(BigDecimal number, String from, String to, BigDecimal expected) {
        BigDecimal shown = Unit.of(from).to(Unit.of(to)).apply(number);
        assertThat(shown.round(new MathContext(7))).isEqualByComparingTo(expected);
    }

    /** B.8, degree Celsius, Fahrenheit, Rankine (temperature). */
    @ParameterizedTest
    @CsvSource({
        "0, °C, °F, 32",
        "100, °C, °F, 212",
        "-40, °C, °F, -40",
        "36.6, °C, °F, 97.88",
        "0, °C, K, 273.15",
        "459.67, °R, °F, 0",
        "-459.67, °F, K, 0",
        "32, °F, °C, 0",
        "491.67, °R, °C, 0"
    })
    void aTemperatureHasAZeroOfItsOwn(BigDecimal number, String from, String to, BigDecimal expected) {
        assertThat(Unit.of(from).to(Unit.of(to)).apply(number)).isEqualByComparingTo(expected);
    }

    /** B.8, degree Celsius, Fahrenheit, Rankine (temperature interval). */
    @ParameterizedTest
    @CsvSource({"10, °C, °F, 18", "10, K, °F, 18", "9, °F, K, 5", "9, °R, °C, 5", "5, K, °C, 5", "1, °C, °R, 1.8"})
    void aDifferenceOfTemperaturesHasNone(BigDecimal number, String from, String to, BigDecimal expected) {
        Linear conversion = Unit.of(from).ofDifference().to(Unit.of(to).ofDifference());
        assertThat(conversion.apply(number)).isEqualByComparingTo(expected);
        assertThat(conversion.addend()).isZero();
    }
}
