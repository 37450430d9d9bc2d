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
    static final ArchRule ONLY_THE_DEVICE_KNOWS_SERIAL_PORTS = noClasses()
            .that()
            .resideOutsideOfPackage("..simulator.device..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("com.fazecast..");

    @ArchTest
    static final ArchRule ROOMS = layeredArchitecture()
            .consideringOnlyDependenciesInLayers()
            .layer("clock")
            .definedBy("..simulator.clock..")
            .layer("value")
            .definedBy("..simulator.value..")
            .layer("plant")
            .definedBy("..simulator.plant..")
            .layer("registers")
            .definedBy("..simulator.registers..")
            .layer("modbus")
            .definedBy("..simulator.modbus..")
            .layer("frame")
            .definedBy("..simulator.frame..")
            .layer("manners")
            .definedBy("..simulator.manners..")
            .layer("device")
            .definedBy("..simulator.device..")
            .layer("bench")
            .definedBy("..simulator.bench..")
            .layer("broker")
            .definedBy("..simulator.broker..")
            .layer("controller")
            .definedBy("..simulator.controller..")
            .layer("demo")
            .definedBy("..simulator.demo..")
            .whereLayer("value")
            .mayOnlyBeAccessedByLayers("plant", "registers")
            .whereLayer("plant")
            .mayOnlyBeAccessedByLayers("registers", "controller", "demo")
            .whereLayer("registers")
            .mayOnlyBeAccessedByLayers("controller")
            .whereLayer("clock")
            .mayOnlyBeAccessedByLayers("device", "controller", "demo")
            .whereLayer("modbus")
            .mayOnlyBeAccessedByLayers("device", "registers", "controller", "bench")
            .whereLayer("frame")
            .mayOnlyBeAccessedByLayers("manners", "device", "controller", "bench")
            .whereLayer("manners")
            .mayOnlyBeAccessedByLayers("device", "controller", "bench")
            .whereLayer("device")
            .mayOnlyBeAccessedByLayers("controller", "demo", "bench")
            .whereLayer("bench")
            .mayNotBeAccessedByAnyLayer()
            .whereLayer("broker")
            .mayOnlyBeAccessedByLayers("demo")
            .whereLayer("controller")
            .mayOnlyBeAccessedByLayers("demo")
            .whereLayer("demo")
            .mayNotBeAccessedByAnyLayer();
}
