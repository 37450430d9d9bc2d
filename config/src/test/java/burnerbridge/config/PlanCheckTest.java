package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * At 9600 baud and 11 bits a character takes 1.146 ms and the silence 4.01 ms, so that a read of one register takes
 * 15 characters, two silences and the 5 ms of the turnaround: 30.2 ms. Of 100 ms that is 30.2 %.
 */
class PlanCheckTest {
    private static final String HEADER = "name,table,address,format,role,every,stale-after,read-group,object\n";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    /** Warnings and notes of a list of a controller on a slow line; its addresses lie apart. */
    private List<String> told(String... rows) {
        return toldOfType("", rows);
    }

    private List<String> toldOfType(String ofType, String... rows) {
        SiteFiles files = new SiteFiles(folder);
        files.write(
                "site.yaml",
                SiteFiles.SITE
                        .replace(
                                "{tcp: {host: 127.0.0.1, port: 1502}",
                                "{rtu-over-tcp: {host: 127.0.0.1, port: 7001, baud: 9600}")
                        .replace("reply-timeout: 500 ms", "reply-timeout: 100 ms")
                        .replace("order: low-word-first", "order: low-word-first" + ofType));
        files.write("points/hot-water.csv", HEADER + String.join("\n", rows) + "\n");
        return files.load().problems().stream()
                .map(problem -> problem.word() + " " + problem)
                .toList();
    }

    private static String fast(String name, int address) {
        return name + ",holding-register," + address + ",uint16,measurement,100 ms,10 s,,none";
    }

    @Test
    void aLineWithTimeToSpareIsNotToldOf() {
        assertThat(told(fast("a", 1), fast("b", 200))).isEmpty();
    }

    @Test
    void aLineThatIsBusyForMuchOfItsTimeIsToldWithTheRowsThatCostMost() {
        assertThat(told(fast("a", 1), fast("b", 200), fast("c", 300)))
                .containsExactly("warning site.yaml: lines.annex: its reads take about 91 % of its time, and more than"
                        + " 70 % leaves too little for repetitions and for controllers that do not answer; the rows that"
                        + " cost most: boiler-1.a 30 %, boiler-1.b 30 %, boiler-1.c 30 %");
    }

    /** Four take 120.9 ms. */
    @Test
    void whatALineHasNoTimeForIsToldWithThePaceThatItWillHave() {
        assertThat(told(fast("a", 1), fast("b", 200), fast("c", 300), fast("d", 400)))
                .hasSize(2)
                .anySatisfy(told -> assertThat(told).contains("about 121 % of its time"))
                .contains(
                        "warning site.yaml: lines.annex: boiler-1.a, boiler-1.b, boiler-1.c and 1 more will not be read"
                                + " every 100 ms, but about every 120 ms: the line has no time for more");
    }

    /** 60 registers: 13 and 120 characters, two silences and 5 ms are 165.4 ms. */
    @Test
    void aReadThatIsLongerThanItsIntervalIsTold() {
        assertThat(told(
                        "a,holding-register,1,uint16,measurement,100 ms,10 s,g,none",
                        "b,holding-register,2,text:59,status,100 ms,10 s,g,none"))
                .contains(
                        "warning site.yaml: lines.annex: boiler-1.a, boiler-1.b will not be read every 100 ms, but about"
                                + " every 170 ms: one read alone takes that long");
    }

    /** Two reads take 60.5 ms of the line and, with the pauses after them, 120.5 ms of the controller. */
    @Test
    void pausesThatLeaveAControllerNoTimeAreTold() {
        assertThat(toldOfType(", pause: 30 ms", fast("a", 1), fast("b", 200)))
                .containsExactly(
                        "warning site.yaml: lines.annex: boiler-1.a, boiler-1.b will not be read every 100 ms, but"
                                + " about every 120 ms: the controller has no time for more, with the pause of 30 ms that its type asks for");
    }

    @Test
    void aReadThatMustAtTimesWaitForALongerOneIsNoted() {
        assertThat(told(fast("a", 1), "b,holding-register,200,text:60,status,1 h,3 h,,none"))
                .containsExactly("note site.yaml: lines.annex: boiler-1.a may at times be read later than every 100 ms,"
                        + " when a longer read is under way");
    }
}
