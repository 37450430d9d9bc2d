package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import burnerbridge.site.AlarmDefinition;
import burnerbridge.site.AlarmDefinition.Kind;
import burnerbridge.site.AlarmDefinition.OfLimit;
import burnerbridge.site.AlarmDefinition.OfStates;
import burnerbridge.site.PointDefinition;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The column that says of what people are to be told. */
class AlarmsTest {
    private static final String HEADER = "name,table,address,format,role,unit,show-unit,states,valid,means,alarm\n";
    private static final String PHASE = "a,input-register,1,uint16,status,,,0=standby|5=firing|77=locked out,,,";
    private static final String BIT = "a,coil,1,bit,status,,,,,,";
    private static final String LOCKOUT = "a,coil,1,bit,status,,,,,lockout,";
    private static final String NUMBER = "a,input-register,1,int16,measurement,°C,,,,,";
    private static final String LIMITED = "a,input-register,1,int16,measurement,°C,,,0..100,,";
    private static final String NEVER_READ = "a,coil,1,bit,lockout-reset,,,,,,";
    private static final String TEXT = "a,holding-register,1,text:4,identity,,,,,,";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private SiteFiles files;

    @BeforeEach
    void write() {
        files = new SiteFiles(folder);
    }

    private AlarmDefinition alarm(String row) {
        files.write("points/hot-water.csv", HEADER + row + "\n");
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        PointDefinition point =
                loaded.site().orElseThrow().controllers().get(0).type().points().get(0);
        return point.options().alarm().orElseThrow();
    }

    @Test
    void aLockoutIsTheBitThatMeansOneOrTheStatesThatAreNamed() {
        assertThat(alarm(LOCKOUT + "lockout")).isEqualTo(new OfStates(Kind.LOCKOUT, Set.of(1L), Duration.ZERO));
        assertThat(alarm(LOCKOUT + "lockout delay=2 s"))
                .isEqualTo(new OfStates(Kind.LOCKOUT, Set.of(1L), Duration.ofSeconds(2)));
        assertThat(alarm(PHASE + "lockout when=locked out delay=0 s"))
                .isEqualTo(new OfStates(Kind.LOCKOUT, Set.of(77L), Duration.ZERO));
        assertThat(alarm(BIT + "lockout when=0")).isEqualTo(new OfStates(Kind.LOCKOUT, Set.of(0L), Duration.ZERO));
    }

    @Test
    void offNormalNamesStatesByNumberOrText() {
        assertThat(alarm(PHASE + "off-normal when=standby|77 delay=1 min"))
                .isEqualTo(new OfStates(Kind.OFF_NORMAL, Set.of(0L, 77L), Duration.ofMinutes(1)));
        assertThat(alarm(BIT + "off-normal when = 1"))
                .isEqualTo(new OfStates(Kind.OFF_NORMAL, Set.of(1L), Duration.ZERO));
    }

    @Test
    void aLimitAndItsDeadbandAreInTheUnitOfTheRowAndKeptAsShown() {
        assertThat(alarm(NUMBER + "high when=>95 delay=30 s deadband=2"))
                .isEqualTo(new OfLimit(Kind.HIGH, new BigDecimal("95"), new BigDecimal("2"), Duration.ofSeconds(30)));
        OfLimit low = (OfLimit) alarm("a,input-register,1,int16,measurement,°C,°F,,,,low deadband=5 when=< -10.5");
        assertThat(low.kind()).isEqualTo(Kind.LOW);
        assertThat(low.limit()).isEqualByComparingTo("13.1");
        assertThat(low.deadband()).isEqualByComparingTo("9");
    }

    @Test
    void aFileWithDecimalCommasHasThemHereToo() {
        files.write(
                "points/hot-water.csv",
                "name;table;address;format;role;scale;alarm\n"
                        + "a;input-register;1;int16;measurement;0,1;high when=>95,5 deadband=0,5\n");
        AlarmDefinition alarm = files.load()
                .site()
                .orElseThrow()
                .points()
                .get(0)
                .definition()
                .options()
                .alarm()
                .orElseThrow();
        assertThat(alarm)
                .isEqualTo(new OfLimit(Kind.HIGH, new BigDecimal("95.5"), new BigDecimal("0.5"), Duration.ZERO));
    }

    @Test
    void thatNoAlarmIsToldYetIsNotedOnceForAList() {
        files.write(
                "points/hot-water.csv", HEADER + NUMBER + "high when=>95\nb,coil,1,bit,status,,,,,lockout,lockout\n");
        assertThat(files.load().problems())
                .filteredOn(problem -> problem.message().startsWith("alarm:"))
                .singleElement()
                .satisfies(note -> {
                    assertThat(note.severity()).isEqualTo(Problem.Severity.NOTE);
                    assertThat(note.message())
                            .isEqualTo("alarm: this version tells no alarms, neither on BACnet nor on MQTT; that of a"
                                    + " and 1 more of this list will be told by a later one");
                });
    }

    @ParameterizedTest
    @CsvSource(
            delimiterString = " # ",
            value = {
                "BIT # lockot when=1 # must begin with one of lockout, high, low, off-normal, like 'lockout delay=0 s',"
                        + " 'high when=>95 delay=30 s deadband=2' or 'off-normal when=blocked' (was 'lockot'); did you mean"
                        + " 'lockout'?",
                "NUMBER # high>95 # must begin with one of",
                "BIT # lockout # lockout needs lockout under means, or the states that are one, like 'lockout when=77'",
                "BIT # off-normal # off-normal needs the states that are not as they should be, like 'when=blocked|fault'",
                "BIT # off-normal when= # off-normal needs the states",
                "PHASE # off-normal when=locked # the point has no state 'locked' (has 0=standby|5=firing|77=locked out)",
                "PHASE # off-normal when=5|firing # state 'firing' of the point stands here twice",
                "BIT # off-normal when=0|1 # when names every state of the point, so that it would never be well",
                "NUMBER # high # high needs when=> and a number in the row's unit, like 'when=>95' (was '')",
                "NUMBER # high when=95 # high needs when=> and a number in the row's unit, like 'when=>95' (was '95')",
                "NUMBER # low when=>5 # low needs when=< and a number in the row's unit, like 'when=<95' (was '>5')",
                "NUMBER # high when=>95 deadband=-1 # deadband must be 0 or a number above it in the row's unit, like"
                        + " 'deadband=2' (was '-1')",
                "NUMBER # high when=>95 deadbant=1 # high takes deadband, delay, when (was 'deadbant'); did you mean"
                        + " 'deadband'?",
                "BIT # off-normal when=1 deadband=1 # off-normal takes delay, when (was 'deadband')",
                "NUMBER # high when=>95 when=>96 # when stands here twice",
                "NUMBER # high when=>95 delay=500 ms # delay must be 0 s to 24 h in whole seconds, like 'delay=30 s' (was"
                        + " '500 ms')",
                "NUMBER # high when=>95 delay=25 h # delay must be 0 s to 24 h",
                "NUMBER # high when=>95 delay=soon # delay must be 0 s to 24 h",
                "LIMITED # high when=>100 # high could not come and go within valid, 0..100: it comes above 100 and goes at"
                        + " 100",
                "LIMITED # low when=<10 deadband=95 # low could not come and go within valid, 0..100: it comes below 10 and"
                        + " goes at 105",
                "BIT # high when=>1 # high is for numbers, and this row holds a bit (format 'bit'); off-normal is for states",
                "NUMBER # off-normal when=1 # off-normal is for a bit or a point with states, and this row holds a number"
                        + " (format 'int16'); high and low are for numbers",
                "TEXT # lockout when=1 # lockout is for a bit or a point with states, and this row holds a text",
                "NEVER_READ # off-normal when=1 # the point is not read, so that nobody would know"
            })
    void whatCannotBeAnAlarmIsToldAtItsCell(String row, String cell, String told) {
        String before = switch (row) {
            case "PHASE" -> PHASE;
            case "BIT" -> BIT;
            case "NUMBER" -> NUMBER;
            case "LIMITED" -> LIMITED;
            case "TEXT" -> TEXT;
            default -> NEVER_READ;
        };
        files.write("points/hot-water.csv", HEADER + before + cell + "\n");
        int column = before.length() + 1;
        assertThat(files.errors())
                .singleElement()
                .asString()
                .startsWith("points/hot-water.csv:2:" + column + ": alarm: " + told);
    }
}
