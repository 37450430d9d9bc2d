package burnerbridge.simulator;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideOutsideOfPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(
        packages = "burnerbridge",
        importOptions = {ImportOption.DoNotIncludeTests.class, ImportOption.DoNotIncludeJars.class})
class ArchitectureTest {

    /** So that a mistake in encoding cannot be cancelled by the same mistake in decoding. */
    @ArchTest
    static final ArchRule THE_SIMULATOR_KNOWS_NOTHING_OF_THE_BRIDGE = classes()
            .should()
            .resideInAPackage("burnerbridge.simulator..")
            .andShould()
            .onlyDependOnClassesThat(
                    resideOutsideOfPackage("burnerbridge..").or(resideInAPackage("burnerbridge.simulator..")));

    @ArchTest
    static final ArchRule ITS_MODBUS_IS_ITS_OWN =
            noClasses().should().dependOnClassesThat().resideInAnyPackage("com.ghgande..", "com.serotonin..");

    @ArchTest
    static final ArchRule ROOMS = layeredArchitecture()
            .consideringOnlyDependenciesInLayers()
            .layer("plant")
            .definedBy("..simulator.plant..")
            .layer("modbus")
            .definedBy("..simulator.modbus..")
            .layer("broker")
            .definedBy("..simulator.broker..")
            .layer("controller")
            .definedBy("..simulator.controller..")
            .layer("demo")
            .definedBy("..simulator.demo..")
            .whereLayer("plant")
            .mayOnlyBeAccessedByLayers("controller", "demo")
            .whereLayer("modbus")
            .mayOnlyBeAccessedByLayers("controller", "demo")
            .whereLayer("broker")
            .mayOnlyBeAccessedByLayers("demo")
            .whereLayer("controller")
            .mayOnlyBeAccessedByLayers("demo")
            .whereLayer("demo")
            .mayNotBeAccessedByAnyLayer();
}
