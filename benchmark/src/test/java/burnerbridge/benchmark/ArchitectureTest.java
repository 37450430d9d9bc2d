package burnerbridge.benchmark;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** Measurements look on from outside. */
@AnalyzeClasses(packages = "burnerbridge", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

    @ArchTest
    static final ArchRule NOTHING_KNOWS_THAT_IT_IS_MEASURED = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.benchmark..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("burnerbridge.benchmark..", "org.openjdk.jmh..");

    @ArchTest
    static final ArchRule THE_DAEMON_IS_A_PROCESS_AND_NOT_A_LIBRARY = noClasses()
            .that()
            .resideInAPackage("burnerbridge.benchmark..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("burnerbridge.daemon..");

    @ArchTest
    static final ArchRule WHAT_IS_MEASURED_IS_WHAT_OTHERS_CAN_USE = noClasses()
            .that()
            .resideInAPackage("burnerbridge.benchmark..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "burnerbridge.line.frame..", "burnerbridge.line.wire..", "com.ghgande..", "com.fazecast..");
}
