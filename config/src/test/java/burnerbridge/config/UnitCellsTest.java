package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import burnerbridge.decode.Decoder;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.unit.Unit;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** From the cells of a row to the text of the value that is shown. */
class UnitCellsTest {
    private static final Stamp ASKED_AT = new Stamp(0, Instant.EPOCH, true);

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder);
    }

    private void site(String units) {
        files.write("site.yaml", SiteFiles.SITE + (units.isEmpty() ? "" : "units: " + units + "\n"));
    }

    private List<PointDefinition> points(String header, String... rows) {
        files.write("points/hot-water.csv", header + "\n" + String.join("\n", rows) + "\n");
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        return loaded.site().orElseThrow().controllers().get(0).type().points();
    }

    private static Reading read(PointDefinition point, int... words) {
        return Decoder.decode(point, Registers.of(words), ASKED_AT, Reading.notReadYet());
    }

    private static String text(PointDefinition point, int... words) {
        Reading reading = read(point, words);
        assertThat(reading.isGood()).isTrue();
        return reading.value() == null ? "" : reading.value().text() + " " + point.unitText();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // format, scale, offset, unit, show-unit, basis, register, what is shown
                "int16,0.1,,°C,°F,            | 212   | 70.16 °F",
                "int16,0.1,,°C,°F,            | 65436 | 14.00 °F",
                "uint16,0.1,-50,Cel,[degF],   | 1500  | 212.00 °F",
                "int16,0.1,,K,°F,difference   | 50    | 9.00 °F difference",
                "uint16,0.1,,mbar,inH2O,gauge | 255   | 10.24 inH2O gauge",
                "uint16,0.1,,mbar,inH2O@60°F, | 255   | 10.25 inH2O@60°F",
                "uint16,0.01,,bar,psi,gauge   | 150   | 21.76 psi gauge",
                "uint16,,,MBtu,,              | 1     | ",
                "uint16,,,hp(boiler),kW,      | 100   | 981 kW",
                "uint16,,,therm,kWh,gross     | 3     | 88 kWh gross",
                "uint16,,,m³/h,ft3/min,       | 100   | 58.9 ft3/min",
                "uint16,,,W,kW,               | 1234  | 1.234 kW",
                "uint16,,,%,%,dry             | 42    | 42 % dry",
                "uint16,0.1,,mg/m3,,dry normal | 425  | 42.5 mg/m3 dry normal"
            })
    void aRowIsShownInTheUnitThatItWants(String cells, int register, String shown) {
        String header = "name,table,address,role,format,scale,offset,unit,show-unit,basis";
        String row = "a,holding-register,1,measurement," + cells;
        if (shown == null) {
            files.write("points/hot-water.csv", header + "\n" + row + "\n");
            assertThat(files.errors()).singleElement().asString().endsWith("did you mean 'kBtu'?");
        } else {
            assertThat(text(points(header, row).get(0), register)).isEqualTo(shown);
        }
    }

    @Test
    void anImperialSiteIsShownInImperialUnits() {
        site("imperial");
        List<PointDefinition> points = points(
                "name,table,address,role,format,scale,unit,show-unit,basis",
                "water,holding-register,1,measurement,int16,0.1,°C,,",
                "band,holding-register,2,setting,int16,0.1,K,,difference",
                "header,holding-register,3,measurement,uint16,0.01,bar,,gauge",
                "gas,holding-register,4,measurement,uint16,0.1,mbar,,",
                "draught,holding-register,5,measurement,int16,0.1,Pa,Pa,",
                "heat,holding-register,6,measurement,uint16,,kW,,",
                "gas-flow,holding-register,7,measurement,uint16,0.1,m3/h,,normal",
                "oxygen,holding-register,8,measurement,uint16,0.01,%,,dry",
                "starts,holding-register,9,counter,uint16,,,,");
        assertThat(points.stream().map(point -> text(point, 850)))
                .containsExactly(
                        "185.00 °F",
                        "153.00 °F difference",
                        "123.28 psi gauge",
                        "34.12 inH2O",
                        "85.0 Pa",
                        "850 kW",
                        "85.0 m3/h normal",
                        "8.50 % dry",
                        "850 ");
        assertThat(points.stream().map(point -> point.unit().bacnetNumber()))
                .containsExactly(64, 120, 56, 58, 53, 48, 135, 98, 95);
    }

    @Test
    void aMetricSiteIsShownInMetricUnits() {
        site("metric");
        List<PointDefinition> points = points(
                "name,table,address,role,format,unit",
                "water,holding-register,1,measurement,int16,°F",
                "heat,holding-register,2,measurement,uint16,kBtu/h",
                "steam,holding-register,3,measurement,uint16,lb/h",
                "load,holding-register,4,measurement,uint16,%");
        assertThat(points.stream().map(point -> text(point, 212)))
                .containsExactly("100.0 °C", "62.1 kW", "96.2 kg/h", "212 %");
    }

    @Test
    void limitsAndTheLeastChangeAreInTheRowsOwnUnit() {
        List<PointDefinition> points = points(
                "name,table,address,role,format,scale,unit,show-unit,valid,change,no-value",
                "a,holding-register,1,measurement,int16,0.1,°C,°F,-20..120,0.5,0x7FFF",
                "b,holding-register,2,measurement,int16,0.1,°C,°F,-20..120,,",
                "c,holding-register,3,measurement,uint16,,bar,psi,1..3,,");
        assertThat(points.get(0).change()).isEqualByComparingTo("0.9");
        assertThat(points.get(1).change()).isEqualByComparingTo("1.26"); // 0.5 % of 252 °F
        assertThat(read(points.get(0), 1200).isGood()).isTrue();
        assertThat(read(points.get(0), 1201).reason()).isEqualTo(Reason.OVER_RANGE);
        assertThat(read(points.get(0), 0xFFFF & -201).reason()).isEqualTo(Reason.UNDER_RANGE);
        assertThat(read(points.get(0), 0x7FFF).reason()).isEqualTo(Reason.NO_SENSOR);
        // The ends in psi do not end as decimals, and are met all the same.
        assertThat(read(points.get(2), 1).isGood()).isTrue();
        assertThat(read(points.get(2), 3).isGood()).isTrue();
        assertThat(read(points.get(2), 4).reason()).isEqualTo(Reason.OVER_RANGE);
    }

    @Test
    void sixtyFourBitsLoseNoDigitInAConversion() {
        PointDefinition energy = points(
                        "name,table,address,role,format,order,unit,show-unit,object",
                        "energy,holding-register,1,counter,uint64,high-word-first,Wh,kWh,none")
                .get(0);
        assertThat(text(energy, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF)).isEqualTo("18446744073709551.615 kWh");
        assertThat(text(energy, 0, 0, 0, 1500)).isEqualTo("1.500 kWh");
    }

    @Test
    void aFloatIsConvertedAsTheDecimalThatItMeans() {
        PointDefinition flow = points(
                        "name,table,address,role,format,order,unit,show-unit",
                        "flow,holding-register,1,measurement,float32,high-word-first,°C,°F")
                .get(0);
        assertThat(text(flow, 0x42F6, 0xE979)).isEqualTo("254.2208 °F"); // 123.456
    }

    @Test
    void anotherPointsDecimalsGoBeforeTheConversion() {
        PointDefinition pressure = points(
                        "name,table,address,role,format,unit,show-unit,scale-by",
                        "pressure,holding-register,1,measurement,uint16,bar,psi,places",
                        "places,holding-register,2,setting,uint16,,,")
                .get(0);
        Reading places = Reading.good(burnerbridge.model.IntegerValue.of(2), ASKED_AT, Registers.of(2));
        Reading reading = Decoder.decodeScaledBy(pressure, Registers.of(150), places, ASKED_AT, Reading.notReadYet());
        assertThat(reading.value()).isNotNull();
        assertThat(Double.parseDouble(reading.value().text())).isBetween(21.75, 21.76);
        assertThat(pressure.unit()).isEqualTo(Unit.of("psi"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "C,, # unit: must be a symbol or UCUM code of the table of units (was 'C'); did you mean '°C'?",
                "deg C,, # unit: must be a symbol or UCUM code of the table of units (was 'deg C'); did you mean '°C'?",
                "KW,, # unit: must be a symbol or UCUM code of the table of units (was 'KW'); did you mean 'kW'?",
                "l/hr,, # unit: must be a symbol or UCUM code of the table of units (was 'l/hr'); did you mean 'l/h'?",
                "PSI,, # unit: must be a symbol or UCUM code of the table of units (was 'PSI'); did you mean 'psi'?",
                "psig,, # unit: must be a symbol or UCUM code of the table of units (was 'psig'); did you mean 'psi' with the basis 'gauge'?",
                "bar (g),, # unit: must be a symbol or UCUM code of the table of units (was 'bar (g)'); did you mean 'bar' with the basis 'gauge'?",
                "Nm³/h,, # unit: must be a symbol or UCUM code of the table of units (was 'Nm³/h'); did you mean 'm3/h' with the basis 'normal'?",
                "MBH,, # unit: must be a symbol or UCUM code of the table of units (was 'MBH'); did you mean 'kBtu/h'?",
                "BHP,, # unit: must be a symbol or UCUM code of the table of units (was 'BHP'); did you mean 'hp(boiler)'?",
                "in. w.c.,, # unit: must be a symbol or UCUM code of the table of units (was 'in. w.c.'); did you mean 'inH2O'?",
                "m2/h,, # unit: must be a symbol or UCUM code of the table of units (was 'm2/h'); did you mean",
                "furlong,, # unit: must be a symbol or UCUM code of the table of units (was 'furlong')",
                "°C,F, # show-unit: must be a symbol or UCUM code of the table of units (was 'F'); did you mean '°F'?",
                "°C,bar, # show-unit: °C is a temperature and cannot be shown in bar, which is a pressure",
                "rpm,Hz, # show-unit: rpm is a rotational speed and cannot be shown in Hz, which is a frequency",
                ",psi, # show-unit: says nothing without a unit (was 'psi')",
                ",,gauge # basis: says nothing without a unit (was 'gauge')",
                "bar,,gage # basis: must be of gauge, absolute, difference, since bar is a pressure (was 'gage'); did you mean 'gauge'?",
                "bar,,dry # basis: must be of gauge, absolute, difference, since bar is a pressure (was 'dry')$",
                "°C,,gauge # basis: must be of difference, since °C is a temperature (was 'gauge')$",
                "rpm,,net # basis: must be empty, since rpm is a rotational speed (was 'net')$",
                "%,,wet dry # basis: 'dry' does not go with what stands before it (was 'wet dry')",
                "m3/h,,normal normal # basis: 'normal' does not go with what stands before it (was 'normal normal')"
            })
    void aMistakeIsToldWithWhatWasMeant(String cells, String expected) {
        files.write(
                "points/hot-water.csv",
                "name,table,address,format,role,unit,show-unit,basis\na,holding-register,1,uint16,status," + cells
                        + "\n");
        // A dollar sign ends what is said.
        assertThat(files.errors())
                .singleElement()
                .satisfies(error -> assertThat(error + "$").contains(": " + expected));
    }

    @Test
    void aPointThatIsNoNumberHasNoneOfTheThree() {
        files.write(
                "points/hot-water.csv",
                "name,table,address,format,role,unit,show-unit,basis\na,coil,1,bit,status,bar,psi,gauge\n");
        assertThat(files.errors())
                .containsExactly(
                        "points/hot-water.csv:2:21: unit: 'bit' has no unit",
                        "points/hot-water.csv:2:25: show-unit: 'bit' has no unit",
                        "points/hot-water.csv:2:29: basis: 'bit' has no unit");
    }

    @ParameterizedTest
    @CsvSource({"imperial, , 1", "imperial, difference, 0", "metric, , 0", "'', , 0"})
    void kelvinsThatMayBeDifferencesAreAFinding(String units, String basis, int findings) {
        site(units);
        files.write(
                "points/hot-water.csv",
                "name,table,address,format,role,unit,basis\na,holding-register,1,uint16,setting,K,"
                        + (basis == null ? "" : basis) + "\n");
        assertThat(files.load().problems())
                .filteredOn(problem -> problem.message().contains("K is taken for a temperature"))
                .hasSize(findings)
                .allMatch(Problem::isWarning);
    }

    @Test
    void aSiteIsMetricOrImperialOrSaysNothing() {
        site("imperail");
        assertThat(files.errors())
                .singleElement()
                .asString()
                .contains("units: must be one of metric, imperial (was 'imperail'); did you mean 'imperial'?");
    }
}
