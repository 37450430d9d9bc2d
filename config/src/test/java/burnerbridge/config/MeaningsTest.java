package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import burnerbridge.site.Condition;
import burnerbridge.site.Meaning;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The columns that say what a point tells, and while what it does. */
class MeaningsTest {
    private static final String HEADER = "name,table,address,format,role,unit,basis,states,object,means,when\n";

    /** What conditions may hang on, and what they may not. */
    private static final String OTHERS = """
            phase,input-register,101,uint16,status,,,0=standby|5=firing|6=modulating|9=post–purge,,phase,
            fuel,coil,1,bit,status,,,0=gas|1=oil,,fuel,
            lockout,coil,2,bit,status,,,,,lockout,
            oxygen,input-register,102,uint16,measurement,%,dry,,,oxygen,phase=5
            chained,coil,3,bit,status,,,,,,fuel=gas
            select,holding-register,9,uint16,record-select,,,0=none|1=newest,,,
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder);
    }

    private List<PointDefinition> points(String rows) {
        files.write("points/hot-water.csv", HEADER + OTHERS + rows);
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        return loaded.site().orElseThrow().controllers().get(0).type().points();
    }

    private PointDefinition last(String row) {
        List<PointDefinition> points = points(row + "\n");
        return points.get(points.size() - 1);
    }

    private List<String> errors(String rows) {
        files.write("points/hot-water.csv", HEADER + OTHERS + rows);
        return files.errors();
    }

    @Test
    void aPointTellsWhatItsRowSays() {
        assertThat(points("a,input-register,1,uint16,measurement,rpm,,,,fan-speed,\n"
                        + "b,input-register,2,uint16,measurement,%,,,,fan-speed,\n"
                        + "c,input-register,3,uint16,measurement,,,,,flame-signal,\n"
                        + "d,input-register,4,uint16,status,,,,,,\n"))
                .extracting(point -> point.options().meaning())
                .endsWith(
                        Optional.of(Meaning.FAN_SPEED),
                        Optional.of(Meaning.FAN_SPEED),
                        Optional.of(Meaning.FLAME_SIGNAL),
                        Optional.empty());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "uint16,measurement,°C,,,,flue-temprature, # means: must be one of phase, running, flame, # did you mean 'flue-temperature'?",
                "uint16,measurement,°C,,,,Flame, # means: must be one of phase, # (was 'Flame'); did you mean 'flame'?",
                "uint16,status,,,,,flame, # means: flame is told by a bit, and this row holds a number (format 'uint16') #",
                "uint16,status,,,0=off|1=on,,flame, # means: flame is told by a bit, and this row holds a point with states #",
                "bit:0,status,,,,,fault-cause, # means: fault-cause is told by a point with states or a number, and this row holds a bit (format 'bit:0') #",
                "text:4,status,,,,,fault-cause, # means: fault-cause is told by a point with states or a number, and this row holds a text #",
                "epoch32,identity,,,,,serial-number, # means: serial-number is told by a number or a text, and this row holds a time #",
                "bit:0,measurement,,,,,flame, # means: flame goes with the role status (was 'measurement') #",
                "uint16,measurement,%,,,,load-demand-x, # means: must be one of # did you mean 'load-demand'?",
                "uint16,setting,%,,,,load-demand, # means: load-demand goes with the role measurement or status or demand (was 'setting') #",
                "uint16,measurement,%,,,,flue-temperature, # means: flue-temperature is a temperature, and % is a ratio #",
                "uint16,measurement,,,,,flue-temperature, # means: flue-temperature is a temperature, and this row has no unit #",
                "uint16,measurement,K,difference,,,flue-temperature, # means: flue-temperature is a temperature, and this row holds a difference #",
                "uint16,counter,h,,,,starts, # means: starts is a number without a unit, and h is a time #",
                "uint16,counter,,,,,run-hours, # means: run-hours is a time, and this row has no unit #",
                "uint16,measurement,bar,,,,fan-speed, # means: fan-speed is a ratio or a frequency or a rotational speed, and bar is a pressure #",
                "uint16,measurement,%,,,,oxygen, # means: a controller has one oxygen, and line 5 has it already #"
            })
    void aMeaningThatDoesNotFitIsTold(String cells, String begin, String end) {
        assertThat(errors("a,input-register,1," + cells + "\n"))
                .singleElement()
                .asString()
                .startsWith("points/hot-water.csv:8:")
                .contains(": " + begin)
                .contains(end == null ? "" : end);
    }

    @ParameterizedTest
    @CsvSource({
        "phase=5|6, phase, 5|6",
        "phase = 5 | modulating, phase, 5|6",
        "phase=firing, phase, 5",
        "phase=post-purge, phase, 9",
        "phase=post–purge, phase, 9",
        "fuel=gas, fuel, 0",
        "fuel=1, fuel, 1",
        "lockout=0, lockout, 0",
        "later=1, later, 1"
    })
    void aConditionIsAPointAndItsStates(String cell, String point, String states) {
        List<PointDefinition> points =
                points("a,input-register,1,uint16,status,,,,,," + cell + "\n" + "later,coil,8,bit,status,,,,,,\n");
        Set<Long> numbers = new TreeSet<>();
        for (String state : states.split("\\|")) {
            numbers.add(Long.parseLong(state));
        }
        assertThat(points.get(points.size() - 2).options().when()).contains(new Condition(new Name(point), numbers));
    }

    @Test
    void aMeaningAndAConditionGoTogether() {
        PointDefinition flue = last("a,input-register,1,uint16,measurement,°C,,,,flue-temperature,phase=5|6");
        assertThat(flue.options().meaning()).contains(Meaning.FLUE_TEMPERATURE);
        assertThat(flue.options().when()).isPresent();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            quoteCharacter = '`',
            value = {
                "phase # when: must be a point and its states, separated by |, like phase=5|6 or fuel=gas (was 'phase')",
                "phase= # when: must be a point and its states",
                "=5 # when: must be a point and its states",
                "phse=5 # when: must begin with a point of this list that is a bit or has states (was 'phse'); did you mean 'phase'?",
                "Phase=5 # when: must begin with a point of this list that is a bit or has states (was 'Phase'); did you mean 'phase'?",
                "a=1 # when: a point does not hang on itself",
                "oxygen=5 # when: oxygen is a number, and a condition hangs on a bit or on a point with states",
                "chained=1 # when: chained has a condition itself, and conditions make no chains",
                "select=1 # when: select is not read, so that nobody would know its state",
                "phase=7 # when: phase has no state '7' (has 0=standby|5=firing|6=modulating|9=post–purge)",
                "phase=5| # when: phase has no state ''",
                "phase=firng # when: phase has no state 'firng' (has 0=standby|5=firing|6=modulating|9=post–purge); did you mean 'firing'?",
                "phase=5|firing # when: state 'firing' of phase stands here twice",
                "lockout=2 # when: lockout has no state '2' (has 0|1)",
                "lockout=yes # when: lockout has no state 'yes' (has 0|1)"
            })
    void aConditionThatCannotBeIsTold(String cell, String expected) {
        assertThat(errors("a,input-register,1,bit:0,status,,,,,," + cell + "\n"))
                .singleElement()
                .asString()
                .startsWith("points/hot-water.csv:8:38: " + expected);
    }

    @Test
    void aConditionOnARowThatIsWrongIsNotToldOnTop() {
        assertThat(errors("a,input-register,1,uint16,status,,,,,,b=1\nb,coil,8,bit,statuss,,,,,,\n"))
                .singleElement()
                .asString()
                .startsWith("points/hot-water.csv:9:")
                .contains("role:");
    }
}
