package burnerbridge;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaAccess.Predicates.target;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.assignableTo;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.equivalentTo;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.name;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;

import burnerbridge.control.JsonLine;
import burnerbridge.line.LineWrites;
import burnerbridge.line.Lines;
import burnerbridge.line.frame.WriteRequest;
import burnerbridge.poll.LineErrand;
import burnerbridge.table.ValueTable;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.properties.HasName;
import com.tngtech.archunit.core.domain.properties.HasOwner;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The arrows between the stages. */
@AnalyzeClasses(packages = "burnerbridge", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

    @ArchTest
    static final ArchRule STAGES = layeredArchitecture()
            .consideringOnlyDependenciesInLayers()
            .layer("model")
            .definedBy("burnerbridge.model..")
            .layer("site")
            .definedBy("burnerbridge.site..")
            .layer("line")
            .definedBy("burnerbridge.line..")
            .layer("plan")
            .definedBy("burnerbridge.plan..")
            .layer("decode")
            .definedBy("burnerbridge.decode..")
            .layer("table")
            .definedBy("burnerbridge.table..")
            .layer("poll")
            .definedBy("burnerbridge.poll..")
            .layer("derive")
            .definedBy("burnerbridge.derive..")
            .layer("state")
            .definedBy("burnerbridge.state..")
            .layer("control")
            .definedBy("burnerbridge.control..")
            .layer("values")
            .definedBy("burnerbridge.values..")
            .whereLayer("derive")
            .mayOnlyAccessLayers("model", "site", "table")
            .layer("health")
            .definedBy("burnerbridge.health..")
            .layer("measure")
            .definedBy("burnerbridge.measure..")
            .layer("scan")
            .definedBy("burnerbridge.scan..")
            .whereLayer("scan")
            .mayOnlyAccessLayers("model", "site", "line", "plan", "poll", "table", "control", "health", "measure")
            .whereLayer("health")
            // Of the control room only how a line of JSON is written.
            .mayOnlyAccessLayers("model", "control")
            .whereLayer("measure")
            .mayNotAccessAnyLayer()
            .whereLayer("state")
            .mayOnlyAccessLayers("site")
            .whereLayer("control")
            .mayNotAccessAnyLayer()
            .whereLayer("values")
            .mayOnlyAccessLayers("model", "site", "table", "control")
            .whereLayer("model")
            .mayNotAccessAnyLayer()
            .whereLayer("site")
            .mayNotAccessAnyLayer()
            .whereLayer("line")
            .mayOnlyAccessLayers("model", "site")
            .whereLayer("plan")
            .mayOnlyAccessLayers("line", "site")
            .whereLayer("decode")
            .mayOnlyAccessLayers("model", "site")
            .whereLayer("table")
            .mayOnlyAccessLayers("model", "site")
            .whereLayer("poll")
            .mayOnlyAccessLayers("model", "site", "line", "plan", "decode", "table")
            .layer("write")
            .definedBy("burnerbridge.write..")
            .whereLayer("write")
            // Of the control room only how a line of JSON is written and read.
            .mayOnlyAccessLayers("model", "site", "line", "decode", "table", "poll", "control", "health", "measure")
            .layer("permits")
            .definedBy("burnerbridge.permits..")
            .whereLayer("permits")
            .mayOnlyAccessLayers("model", "site", "table", "control", "write")
            .whereLayer("write")
            .mayOnlyBeAccessedByLayers("permits");

    @ArchTest
    static final ArchRule THE_GATE_KNOWS_OF_THE_CONTROL_SOCKET_ITS_JSON_ALONE = noClasses()
            .that()
            .resideInAPackage("burnerbridge.write..")
            .should()
            .dependOnClassesThat(resideInAPackage("burnerbridge.control..").and(not(equivalentTo(JsonLine.class))));

    @ArchTest
    static final ArchRule THE_GATE_KNOWS_OF_THE_POLLER_ITS_ERRAND_ALONE = noClasses()
            .that()
            .resideInAPackage("burnerbridge.write..")
            .should()
            .dependOnClassesThat(resideInAPackage("burnerbridge.poll..").and(not(equivalentTo(LineErrand.class))));

    @ArchTest
    static final ArchRule NOBODY_HERE_MAKES_A_LINE_THAT_CAN_WRITE = noClasses()
            .should()
            .accessTargetWhere(target(owner(equivalentTo(Lines.class)))
                    .and(target(name("writable")))
                    .as("target is Lines.writable"));

    @ArchTest
    static final ArchRule ONLY_THE_GATE_WRITES = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.write..")
            .and()
            .areNotAssignableTo(LineWrites.class)
            .should()
            .accessTargetWhere(target(owner(assignableTo(LineWrites.class)))
                    .and(not(target(name("<init>"))))
                    .as("target is a method of LineWrites"));

    @ArchTest
    static final ArchRule ONLY_THE_WRITES_OF_A_LINE_MAKE_REQUESTS_TO_WRITE = noClasses()
            .that()
            .areNotAssignableTo(LineWrites.class)
            .should()
            .accessTargetWhere(target(owner(equivalentTo(WriteRequest.class)))
                    .and(target(name("<init>")))
                    .as("target is the constructor of WriteRequest"));

    @ArchTest
    static final ArchRule ONLY_THE_DATA_UNITS_KNOW_THE_LIBRARYS_WRITES = noClasses()
            .that()
            .doNotHaveFullyQualifiedName("burnerbridge.line.frame.Pdu")
            .should()
            .dependOnClassesThat()
            .haveNameMatching("com\\.ghgande\\.j2mod\\.modbus\\.msg\\.(ReadWrite|Write|Mask).*");

    @ArchTest
    static final ArchRule ONLY_THE_LINE_KNOWS_THE_MODBUS_LIBRARIES = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.line..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("com.ghgande..", "com.fazecast..");

    @ArchTest
    static final ArchRule FRAMES_AND_WIRES_ARE_THE_LINES_OWN = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.line..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("burnerbridge.line.frame..", "burnerbridge.line.wire..");

    @ArchTest
    static final ArchRule A_WIRE_KNOWS_NO_FRAMES = noClasses()
            .that()
            .resideInAPackage("burnerbridge.line.wire..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("burnerbridge.line", "burnerbridge.line.frame..");

    @ArchTest
    static final ArchRule THE_LIBRARYS_MASTER_AND_TRANSPORTS_ARE_NOT_USED = noClasses()
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "com.ghgande.j2mod.modbus.io..",
                    "com.ghgande.j2mod.modbus.net..",
                    "com.ghgande.j2mod.modbus.facade..",
                    "com.ghgande.j2mod.modbus.slave..");

    @ArchTest
    static final ArchRule ONLY_THE_POLLER_DERIVED_POINTS_AND_THE_SWEEP_WRITE_READINGS = noClasses()
            .that()
            .resideOutsideOfPackages("burnerbridge.poll..", "burnerbridge.derive..", "burnerbridge.table..")
            .should()
            .callMethodWhere(JavaCall.Predicates.target(
                            HasOwner.Predicates.With.owner(JavaClass.Predicates.equivalentTo(ValueTable.class)))
                    .and(JavaCall.Predicates.target(HasName.Predicates.nameMatching("publish|replace"))));

    @ArchTest
    static final ArchRule THE_TRANSPORT_IS_NOT_PUBLIC = classes()
            .that()
            .haveSimpleNameEndingWith("Transport")
            .and()
            .areNotInterfaces()
            .should()
            .notBePublic();
}
