package burnerbridge.daemon;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaAccess.Predicates.target;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.assignableTo;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.equivalentTo;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.name;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import burnerbridge.line.LineWrites;
import burnerbridge.line.Lines;
import burnerbridge.table.ValueTable;
import burnerbridge.write.Gatehouse;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.properties.HasName;
import com.tngtech.archunit.core.domain.properties.HasOwner;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.core.importer.Location;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The arrows between the modules, seen from the one that has them all. */
@AnalyzeClasses(
        packages = "burnerbridge",
        importOptions = {ImportOption.DoNotIncludeTests.class, ArchitectureTest.NoSimulator.class})
class ArchitectureTest {

    /** It is on the path for tests alone, and holds itself by rules of its own. */
    static final class NoSimulator implements ImportOption {
        @Override
        public boolean includes(Location location) {
            return !location.contains("/burnerbridge/simulator/");
        }
    }

    @ArchTest
    static final ArchRule THE_SIDES_DO_NOT_KNOW_EACH_OTHER = noClasses()
            .that()
            .resideInAPackage("burnerbridge.mqtt..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("burnerbridge.bacnet..");

    @ArchTest
    static final ArchRule NOR_THE_OTHER_WAY_ROUND = noClasses()
            .that()
            .resideInAPackage("burnerbridge.bacnet..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("burnerbridge.mqtt..");

    @ArchTest
    static final ArchRule THE_SIDES_SEE_READINGS_AND_NEVER_THE_LINE = noClasses()
            .that()
            .resideInAnyPackage("burnerbridge.bacnet..", "burnerbridge.mqtt..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "burnerbridge.line..",
                    "burnerbridge.plan..",
                    "burnerbridge.poll..",
                    "burnerbridge.decode..",
                    "burnerbridge.config..",
                    "burnerbridge.daemon..");

    @ArchTest
    static final ArchRule ONLY_THE_LINE_KNOWS_THE_MODBUS_LIBRARIES = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.line..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("com.ghgande..", "com.fazecast..");

    @ArchTest
    static final ArchRule THE_ROOMS_OF_CONFIG_STAND_ON_EACH_OTHER =
            slices().matching("burnerbridge.config.(*)..").should().beFreeOfCycles();

    @ArchTest
    static final ArchRule ONLY_THE_CONVERTER_OPENS_WORKBOOKS = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.config.workbook")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.dhatim..");

    @ArchTest
    static final ArchRule AND_ONLY_ITS_COMMAND_KNOWS_THE_CONVERTER = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.config.workbook")
            .and()
            .doNotHaveSimpleName("FromSpreadsheetCommand")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("burnerbridge.config.workbook");

    @ArchTest
    static final ArchRule ONLY_THE_POLLER_DERIVED_POINTS_AND_THE_SWEEP_WRITE_READINGS = noClasses()
            .that()
            .resideOutsideOfPackages("burnerbridge.poll..", "burnerbridge.derive..", "burnerbridge.table..")
            .should()
            .callMethodWhere(JavaCall.Predicates.target(
                            HasOwner.Predicates.With.owner(JavaClass.Predicates.equivalentTo(ValueTable.class)))
                    .and(JavaCall.Predicates.target(HasName.Predicates.nameMatching("publish|replace"))));

    @ArchTest
    static final ArchRule ONLY_THE_ROOT_KNOWS_THE_ROOT = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.daemon..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("burnerbridge.daemon..");

    @ArchTest
    static final ArchRule CONFIGURATION_KNOWS_NO_SIDE_AND_NO_LINE = noClasses()
            .that()
            .resideInAPackage("burnerbridge.config..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "burnerbridge.bacnet..",
                    "burnerbridge.mqtt..",
                    "burnerbridge.line..",
                    "burnerbridge.poll..",
                    "burnerbridge.table..");

    @ArchTest
    static final ArchRule ONLY_THE_ROOT_MAKES_LINES_THAT_CAN_WRITE = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.daemon..")
            .should()
            .accessTargetWhere(target(owner(equivalentTo(Lines.class)))
                    .and(target(name("writable")))
                    .as("target is Lines.writable"));

    @ArchTest
    static final ArchRule ONLY_THE_GATE_WRITES = noClasses()
            .that()
            .resideOutsideOfPackages("burnerbridge.write..")
            .and()
            .areNotAssignableTo(LineWrites.class)
            .should()
            .accessTargetWhere(target(owner(assignableTo(LineWrites.class)))
                    .and(not(target(name("<init>"))))
                    .as("target is a method of LineWrites"));

    @ArchTest
    static final ArchRule FRAMES_AND_THEIR_DATA_UNITS_ARE_THE_LINES_OWN = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.line..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("burnerbridge.line.frame..", "burnerbridge.line.wire..");

    /** Besides it only the door of a side does. */
    @ArchTest
    static final ArchRule ONLY_THE_ROOT_AND_THE_DOORS_KNOW_THE_GATE = noClasses()
            .that()
            .resideOutsideOfPackages(
                    "burnerbridge.daemon..",
                    "burnerbridge.write..",
                    "burnerbridge.permits..",
                    "burnerbridge.bacnet.door..",
                    "burnerbridge.mqtt",
                    "burnerbridge.mqtt.door",
                    "burnerbridge.mqtt.payload",
                    "burnerbridge.mqtt.topic")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("burnerbridge.write..");

    @ArchTest
    static final ArchRule A_DOOR_ASKS_AND_IS_TOLD_AND_NO_MORE = noClasses()
            .that()
            .resideInAPackage("burnerbridge.mqtt..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "burnerbridge.write.approval..",
                    "burnerbridge.write.audit..",
                    "burnerbridge.write.encode..",
                    "burnerbridge.write.memory..",
                    "burnerbridge.write.slot..",
                    "burnerbridge.write.store..");

    @ArchTest
    static final ArchRule NOR_DOES_IT_APPROVE_OR_CLOSE_THE_GATE = noClasses()
            .that()
            .resideInAPackage("burnerbridge.mqtt..")
            .should()
            .accessTargetWhere(target(owner(equivalentTo(Gatehouse.class)))
                    .and(not(target(name("ask"))
                            .or(target(name("refused")))
                            .or(target(name("status")))
                            .or(target(name("watch")))))
                    .as("target is what a door has no business with"));
}
