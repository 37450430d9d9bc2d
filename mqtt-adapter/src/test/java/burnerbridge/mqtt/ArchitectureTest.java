package burnerbridge.mqtt;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import burnerbridge.table.ValueTable;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(packages = "burnerbridge.mqtt", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

    @ArchTest
    static final ArchRule onlyTheBrokersRoomKnowsTheClientLibrary = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.mqtt.broker")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("org.eclipse.paho..");

    @ArchTest
    static final ArchRule onlyTheTopicsAndTheDocumentsWriteJson = noClasses()
            .that()
            .resideOutsideOfPackages("burnerbridge.mqtt.payload", "burnerbridge.mqtt.documents")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("tools.jackson..");

    @ArchTest
    static final ArchRule theBrokersRoomKnowsNothingOfTheSite = noClasses()
            .that()
            .resideInAPackage("burnerbridge.mqtt.broker..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "burnerbridge.mqtt",
                    "burnerbridge.mqtt.access",
                    "burnerbridge.mqtt.payload",
                    "burnerbridge.mqtt.topic",
                    "burnerbridge.site",
                    "burnerbridge.table");

    @ArchTest
    static final ArchRule nothingHereWritesTheValueTable = noClasses()
            .should()
            .callMethodWhere(com.tngtech.archunit.base.DescribedPredicate.describe(
                    "the table's writing methods",
                    call -> call.getTargetOwner().isEquivalentTo(ValueTable.class)
                            && (call.getName().equals("publish")
                                    || call.getName().equals("replace"))));

    @ArchTest
    static final ArchRule nothingHereKnowsTheLineOrTheOtherSide = noClasses()
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("burnerbridge.line..", "burnerbridge.poll..", "burnerbridge.bacnet..");
}
