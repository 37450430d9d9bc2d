package burnerbridge.web;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(packages = "burnerbridge.web", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

    @ArchTest
    static final ArchRule onlyTheMetricsRoomKnowsTheFormats = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.web.metrics")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("io.prometheus..");

    @ArchTest
    static final ArchRule onlyTheRoomOfHttpKnowsConnections = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.web.http")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("java.nio.channels..");

    @ArchTest
    static final ArchRule theRoomOfHttpKnowsNoPage = noClasses()
            .that()
            .resideInAPackage("burnerbridge.web.http")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "burnerbridge.web",
                    "burnerbridge.web.access",
                    "burnerbridge.web.metrics",
                    "burnerbridge.health",
                    "burnerbridge.site..");

    @ArchTest
    static final ArchRule onlyHealthMeasuresTimeSettingsAndSecretsOfTheBridgeAreKnownHere = classes()
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                    "burnerbridge.web..",
                    "burnerbridge.health",
                    "burnerbridge.measure",
                    "burnerbridge.model",
                    "burnerbridge.secret",
                    "burnerbridge.site",
                    "io.prometheus..",
                    "java..",
                    "org.jspecify..",
                    "org.slf4j..");
}
