package burnerbridge;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.ArchRule;
import org.junit.jupiter.api.Test;

/** Each rule about writing, held against a class that breaks it. */
class ArchitectureCanFailTest {
    private static final JavaClasses ALL = new ClassFileImporter().importPackages("burnerbridge");

    private static void assertBroken(ArchRule rule, String... by) {
        assertThatThrownBy(() -> rule.check(ALL))
                .isInstanceOf(AssertionError.class)
                .satisfies(error -> {
                    for (String name : by) {
                        org.assertj.core.api.Assertions.assertThat(error).hasMessageContaining(name);
                    }
                });
    }

    @Test
    void whoMakesALineThatCanWrite() {
        assertBroken(
                ArchitectureTest.NOBODY_HERE_MAKES_A_LINE_THAT_CAN_WRITE, "burnerbridge.misuse.MakesAWritableLine");
    }

    @Test
    void whoWritesWithoutBeingTheGate() {
        assertBroken(
                ArchitectureTest.ONLY_THE_GATE_WRITES,
                "burnerbridge.misuse.Writes.write",
                "burnerbridge.misuse.WritesByReference");
    }

    @Test
    void whoMakesARequestToWrite() {
        assertBroken(
                ArchitectureTest.ONLY_THE_WRITES_OF_A_LINE_MAKE_REQUESTS_TO_WRITE, "burnerbridge.misuse.MakesARequest");
        assertBroken(ArchitectureTest.FRAMES_AND_WIRES_ARE_THE_LINES_OWN, "burnerbridge.misuse.MakesARequest");
    }

    @Test
    void whoEncodesAWriteWithTheLibrary() {
        assertBroken(
                ArchitectureTest.ONLY_THE_DATA_UNITS_KNOW_THE_LIBRARYS_WRITES, "burnerbridge.misuse.EncodesByItself");
        assertBroken(ArchitectureTest.ONLY_THE_LINE_KNOWS_THE_MODBUS_LIBRARIES, "burnerbridge.misuse.EncodesByItself");
    }

    @Test
    void whichStageReachesForTheGateAndWhatTheGateReachesFor() {
        assertBroken(
                ArchitectureTest.STAGES,
                "burnerbridge.values.misuse.ReachesTheGate",
                "burnerbridge.write.misuse.Plans");
    }

    @Test
    void whatOfThePollerTheGateMustNotKnow() {
        assertBroken(
                ArchitectureTest.THE_GATE_KNOWS_OF_THE_POLLER_ITS_ERRAND_ALONE,
                "burnerbridge.write.misuse.StepsThePoller");
    }
}
