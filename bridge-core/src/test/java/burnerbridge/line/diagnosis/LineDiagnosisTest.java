package burnerbridge.line.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Fault;
import burnerbridge.line.Heard;
import burnerbridge.line.Outcome;
import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import burnerbridge.site.Name;
import burnerbridge.site.UnitId;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

/** When a line is looked at, and what of it is told. */
class LineDiagnosisTest {
    private static final LineDefinition LINE = new LineDefinition(
            new Name("tested"),
            new LineDefinition.Serial("/dev/adapter", 19_200, Parity.EVEN, 1, Rs485.AUTO, false),
            Duration.ofMillis(500),
            Duration.ofSeconds(3));

    private final HandClock clock = new HandClock();
    private final Counted counted = new Counted();
    private final LineDiagnosis diagnosis = new LineDiagnosis(LINE, counted::census, clock);
    private final Logger logger = (Logger) LoggerFactory.getLogger("burnerbridge.line.diagnosis");
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();

    @BeforeEach
    void listen() {
        log.start();
        logger.addAppender(log);
        logger.setLevel(Level.DEBUG);
        logger.setAdditive(false);
    }

    @AfterEach
    void end() {
        logger.detachAppender(log);
        logger.setLevel(null);
        logger.setAdditive(true);
    }

    private void passes(long millis) {
        clock.forward(Duration.ofMillis(millis));
    }

    private void answered(int unit) {
        counted.answered(unit, 1);
        diagnosis.after(new Outcome.Answered(Registers.of(1), clock.now()));
        passes(1_000);
    }

    private void answered(int unit, int times) {
        for (int i = 0; i < times; i++) {
            answered(unit);
        }
    }

    private void silent(int unit) {
        counted.silent(unit, 1);
        diagnosis.after(new Outcome.Silent(clock.now()));
        passes(1_000);
    }

    private void broken(int unit, Fault fault) {
        counted.broken(unit, fault, 1);
        diagnosis.after(new Outcome.Broken(fault, "", clock.now()));
        passes(1_000);
    }

    private List<String> told(Level level) {
        return log.list.stream()
                .filter(event -> event.getLevel() == level)
                .map(ILoggingEvent::getFormattedMessage)
                .toList();
    }

    private List<Kind> kinds() {
        return diagnosis.findings().stream().map(Finding::kind).toList();
    }

    @Test
    void aLineThatNeverWorkedIsToldAfterFiveFailures() {
        for (int i = 0; i < 4; i++) {
            silent(1);
        }
        assertThat(diagnosis.findings()).isEmpty();
        silent(1);
        assertThat(kinds()).containsExactly(Kind.NOTHING_HEARD);
        assertThat(told(Level.WARN))
                .singleElement()
                .asString()
                .startsWith("line tested: nothing was received in reply to 5 requests in 4 s: look at the power of");
    }

    @Test
    void whatRepeatsIsToldOnceAndCountedAtDebug() {
        for (int i = 0; i < 600; i++) {
            silent(1);
        }
        assertThat(told(Level.WARN)).hasSize(1);
        assertThat(told(Level.INFO)).isEmpty();
        assertThat(told(Level.DEBUG)).hasSize(9).last().asString().contains("looks so far: nothing was");
        assertThat(diagnosis.findings())
                .singleElement()
                .satisfies(finding -> assertThat(finding.seen()).contains("40 requests in 40 s"));
    }

    @Test
    void whatIsOverIsSaidAfterTwoWindowsWithoutIt() {
        for (int i = 0; i < 5; i++) {
            broken(1, Fault.ECHO);
        }
        assertThat(kinds()).containsExactly(Kind.ECHO);
        answered(1, 170);
        assertThat(kinds()).containsExactly(Kind.ECHO);
        answered(1, 20);
        assertThat(diagnosis.findings()).isEmpty();
        assertThat(told(Level.INFO))
                .containsExactly("line tested: no longer so: 5 times on 61 requests in 60 s our own bytes came back"
                        + " instead of a reply, or before it");
        assertThat(told(Level.WARN)).hasSize(1);
    }

    /** A lost unit is probed every 25 s or so, the others go on. */
    @Test
    void aUnitThatIsSeldomAskedStaysFoundUntilItsRequestsSayOtherwise() {
        answered(1, 20);
        answered(2, 5);
        for (int probe = 0; probe < 12; probe++) {
            silent(2);
            answered(1, 24);
        }
        assertThat(diagnosis.findings()).singleElement().satisfies(finding -> {
            assertThat(finding.kind()).isEqualTo(Kind.UNIT_SILENT);
            assertThat(finding.unit()).isEqualTo(new UnitId(2));
        });
        assertThat(told(Level.WARN)).hasSize(1);
        for (int i = 0; i < 100; i++) {
            answered(1);
            answered(2);
        }
        assertThat(diagnosis.findings()).isEmpty();
        assertThat(told(Level.INFO)).hasSize(1);
    }

    @Test
    void aHealthyLineWithAFailureNowAndThenSaysNothingForADay() {
        for (int i = 0; i < 86_400; i++) {
            if (i % 40 == 39) {
                broken(i % 3 + 1, Fault.values()[i / 40 % Fault.values().length]);
            } else {
                answered(i % 3 + 1);
            }
        }
        assertThat(log.list).isEmpty();
        assertThat(diagnosis.findings()).isEmpty();
    }

    @Test
    void aSlowLineIsLookedAtOverALongerTime() {
        for (int i = 0; i < 12; i++) {
            broken(1, Fault.CHECKSUM);
            passes(59_000);
            answered(1);
            passes(59_000);
        }
        assertThat(kinds()).containsExactly(Kind.CHECKSUM);
    }

    @Test
    void aLineThatIsNotConnectedIsNoReasonToLook() {
        for (int i = 0; i < 5; i++) {
            silent(1);
        }
        for (int i = 0; i < 1_000; i++) {
            diagnosis.after(new Outcome.NotConnected("unplugged"));
            passes(5_000);
        }
        assertThat(kinds()).containsExactly(Kind.NOTHING_HEARD);
        assertThat(log.list).hasSize(1);
    }

    @Test
    void whatSaysMoreTakesThePlaceOfWhatItExplains() {
        for (int i = 0; i < 5; i++) {
            broken(1, Fault.UNIT);
        }
        assertThat(kinds()).containsExactly(Kind.OTHERS_REPLY);
        counted.heard(9, Heard.REQUEST, 3);
        for (int i = 0; i < 5; i++) {
            broken(1, Fault.UNIT);
        }
        assertThat(kinds()).containsExactly(Kind.SECOND_MASTER);
        assertThat(told(Level.INFO)).isEmpty();
    }

    /** After the cable was cut each unit is found silent at another time; none of them is while others answer. */
    @Test
    void aLineThatFallsSilentIsOneSentenceAndNotOneAUnit() {
        for (int i = 0; i < 61; i++) {
            answered(i % 3 + 1);
        }
        for (int i = 0; i < 40; i++) {
            silent(i % 4 == 0 ? i / 4 % 2 + 2 : 1);
            assertThat(kinds()).doesNotContain(Kind.UNIT_SILENT);
        }
        assertThat(kinds()).containsExactly(Kind.NOTHING_HEARD);
        assertThat(told(Level.WARN)).hasSize(1);
    }

    @Test
    void aLineOfManySilentUnitsTellsAFewOfThemAndHowManyMore() {
        for (int round = 0; round < 6; round++) {
            answered(1, 5);
            for (int unit = 2; unit <= 40; unit++) {
                silent(unit);
            }
        }
        assertThat(diagnosis.findings()).hasSize(39);
        assertThat(told(Level.WARN))
                .hasSize(Standing.MOST_TOLD + 1)
                .last()
                .isEqualTo("line tested: 34 more such changes, told at debug");
    }

    /** Whatever a line does: at most so many lines a minute. */
    @Test
    void theLogIsBoundedOnALineThatChangesAllTheTime() {
        Fault[] faults = Fault.values();
        for (int minute = 0; minute < 600; minute++) {
            for (int i = 0; i < 60; i++) {
                broken(i % 10 + 1, faults[minute / 3 % faults.length]);
            }
        }
        assertThat(told(Level.WARN).size() + told(Level.INFO).size()).isLessThan(600 * (Standing.MOST_TOLD + 1));
    }
}
