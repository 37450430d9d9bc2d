package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.ArchRule;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Each rule about writing, held against a side that breaks it. */
class ArchitectureCanFailTest {
    private static final JavaClasses BROKEN = new ClassFileImporter().importPackages("burnerbridge.bacnet.misuse");

    static ArchRule[] rules() {
        return new ArchRule[] {
            ArchitectureTest.ONLY_THE_ROOT_MAKES_LINES_THAT_CAN_WRITE,
            ArchitectureTest.ONLY_THE_GATE_WRITES,
            ArchitectureTest.ONLY_THE_ROOT_AND_THE_DOORS_KNOW_THE_GATE,
            ArchitectureTest.THE_SIDES_SEE_READINGS_AND_NEVER_THE_LINE
        };
    }

    @ParameterizedTest
    @MethodSource("rules")
    void aSideThatWritesByItselfBreaksTheRule(ArchRule rule) {
        assertThatThrownBy(() -> rule.check(BROKEN))
                .isInstanceOf(AssertionError.class)
                .hasMessageContaining("burnerbridge.bacnet.misuse.WritesByItself");
    }
}
