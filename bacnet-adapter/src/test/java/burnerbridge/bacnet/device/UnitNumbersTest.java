package burnerbridge.bacnet.device;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.unit.Unit;
import com.serotonin.bacnet4j.type.enumerated.EngineeringUnits;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The numbers of the table against the names that the library has for them, typed beside each symbol. */
class UnitNumbersTest {
    private static final String NAMES = """
            °C degrees-celsius
            K degrees-kelvin
            °F degrees-fahrenheit
            K/min degrees-kelvin-per-minute
            K/h degrees-kelvin-per-hour
            °C/min degrees-celsius-per-minute
            °C/h degrees-celsius-per-hour
            °F/min degrees-fahrenheit-per-minute
            °F/h degrees-fahrenheit-per-hour
            Pa pascals
            hPa hectopascals
            kPa kilopascals
            mbar millibars
            bar bars
            psi pounds-force-per-square-inch
            inH2O inches-of-water
            inH2O@4°C inches-of-water
            inH2O@60°F inches-of-water
            mmH2O millimeters-of-water
            cmH2O centimeters-of-water
            mmHg millimeters-of-mercury
            inHg inches-of-mercury
            W watts
            kW kilowatts
            MW megawatts
            Btu/h btus-per-hour
            kBtu/h kilo-btus-per-hour
            hp horsepower
            TR tons-refrigeration
            VA volt-amperes
            kVA kilovolt-amperes
            var volt-amperes-reactive
            kvar kilovolt-amperes-reactive
            J joules
            kJ kilojoules
            MJ megajoules
            Wh watt-hours
            kWh kilowatt-hours
            MWh megawatt-hours
            Btu btus
            Btu(th) btus
            kBtu kilo-btus
            MMBtu mega-btus
            therm therms
            therm(EC) therms
            m3 cubic-meters
            l liters
            ml milliliters
            ft3 cubic-feet
            gal us-gallons
            gal(UK) imperial-gallons
            m3/s cubic-meters-per-second
            m3/min cubic-meters-per-minute
            m3/h cubic-meters-per-hour
            m3/d cubic-meters-per-day
            l/s liters-per-second
            l/min liters-per-minute
            l/h liters-per-hour
            ft3/s cubic-feet-per-second
            ft3/min cubic-feet-per-minute
            ft3/h cubic-feet-per-hour
            gal/min us-gallons-per-minute
            gal/h us-gallons-per-hour
            gal(UK)/min imperial-gallons-per-minute
            g grams
            kg kilograms
            t tons
            lb pounds-mass
            g/s grams-per-second
            kg/s kilograms-per-second
            kg/min kilograms-per-minute
            kg/h kilograms-per-hour
            t/h tons-per-hour
            lb/s pounds-mass-per-second
            lb/min pounds-mass-per-minute
            lb/h pounds-mass-per-hour
            % percent
            ‰ per-mille
            ppm parts-per-million
            ppb parts-per-billion
            %RH percent-relative-humidity
            g/m3 grams-per-cubic-meter
            mg/m3 milligrams-per-cubic-meter
            µg/m3 micrograms-per-cubic-meter
            g/l grams-per-liter
            mg/l milligrams-per-liter
            kg/m3 kilograms-per-cubic-meter
            Wh/m3 watt-hours-per-cubic-meter
            kJ/kg kilojoules-per-kilogram
            Btu/lb btus-per-pound
            W/m2 watts-per-square-meter
            mA milliamperes
            A amperes
            mV millivolts
            V volts
            kV kilovolts
            mΩ milliohms
            Ω ohms
            kΩ kilohms
            MΩ megohms
            µS microsiemens
            mS millisiemens
            Hz hertz
            kHz kilohertz
            rpm revolutions-per-minute
            1/s per-second
            1/min per-minute
            1/h per-hour
            ms milliseconds
            s seconds
            min minutes
            h hours
            d days
            ° degrees-angular
            rad radians
            µm micrometers
            mm millimeters
            cm centimeters
            m meters
            in inches
            ft feet
            m2 square-meters
            ft2 square-feet
            m/s meters-per-second
            ft/s feet-per-second
            ft/min feet-per-minute
            Nm newton-meters
            pH p-h
            """;

    private static final String DIFFERENCES = """
            °C delta-degrees-kelvin
            K delta-degrees-kelvin
            °F delta-degrees-fahrenheit
            °R delta-degrees-fahrenheit
            """;

    static List<String> names() {
        return NAMES.lines().toList();
    }

    static List<String> differences() {
        return DIFFERENCES.lines().toList();
    }

    private static String libraryName(int number) {
        return EngineeringUnits.nameForId(number);
    }

    @ParameterizedTest
    @MethodSource("names")
    void aNumberHasTheNameOfItsUnit(String line) {
        String[] pair = line.split(" ", -1);
        assertThat(libraryName(Unit.of(pair[0]).bacnetNumber())).isEqualTo(pair[1]);
    }

    @ParameterizedTest
    @MethodSource("differences")
    void aDifferenceHasANumberOfItsOwn(String line) {
        String[] pair = line.split(" ", -1);
        assertThat(libraryName(Unit.of(pair[0]).ofDifference().bacnetNumber())).isEqualTo(pair[1]);
    }

    @Test
    void conductivityPerMetreHasItsNumber() {
        assertThat(Unit.of("S/m").bacnetNumber()).isEqualTo(174);
        assertThat(libraryName(174)).endsWith("s-per-meter");
    }

    /** And those that are not named above say that they have none. */
    @Test
    void whatHasNoNumberIsNoUnits() {
        Set<String> without = new TreeSet<>();
        Unit.all().stream().filter(unit -> unit.bacnetNumber() == 95).forEach(unit -> without.add(unit.symbol()));
        Set<String> named = new HashSet<>();
        names().forEach(line -> named.add(line.split(" ", -1)[0]));
        Unit.all().stream()
                .map(Unit::symbol)
                .filter(symbol -> !symbol.equals("°R") && !symbol.equals("S/m"))
                .forEach(
                        symbol -> assertThat(named.contains(symbol)).as(symbol).isNotEqualTo(without.contains(symbol)));
        assertThat(libraryName(95)).isEqualTo("no-units");
    }
}
