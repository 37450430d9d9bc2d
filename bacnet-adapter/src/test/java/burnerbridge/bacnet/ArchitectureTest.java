package burnerbridge.bacnet;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import burnerbridge.table.ValueTable;
import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaMethodCall;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(packages = "burnerbridge.bacnet", importOptions = ImportOption.DoNotIncludeTests.class)
final class ArchitectureTest {

    @ArchTest
    static final ArchRule theEdgeKnowsNoObjectOfTheLibrary = noClasses()
            .that()
            .resideInAPackage("burnerbridge.bacnet.edge..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("com.serotonin.bacnet4j.obj..");

    @ArchTest
    static final ArchRule framesAreJudgedWithoutTheLibrary = noClasses()
            .that()
            .resideInAnyPackage("burnerbridge.bacnet.edge.coding..", "burnerbridge.bacnet.edge.frame..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("com.serotonin..");

    @ArchTest
    static final ArchRule theEdgeDoesNotKnowTheDevice = noClasses()
            .that()
            .resideInAPackage("burnerbridge.bacnet.edge..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("burnerbridge.bacnet.device..");

    @ArchTest
    static final ArchRule socketsAreOpenedAtTheEdgeOnly = noClasses()
            .that()
            .resideOutsideOfPackage("burnerbridge.bacnet.edge")
            .should()
            .dependOnClassesThat()
            .haveFullyQualifiedName("java.net.DatagramSocket")
            .orShould()
            .dependOnClassesThat()
            .resideInAPackage("com.serotonin.bacnet4j.npdu.ip..");

    @ArchTest
    static final ArchRule theTableIsOnlyRead = noClasses().should().callMethodWhere(writesTheTable());

    private static DescribedPredicate<JavaMethodCall> writesTheTable() {
        return DescribedPredicate.describe(
                "it writes the value table",
                call -> call.getTargetOwner().isEquivalentTo(ValueTable.class)
                        && (call.getName().equals("publish") || call.getName().equals("replace")));
    }

    @ArchTest
    static final ArchRule roomsFormNoCycle =
            slices().matching("burnerbridge.bacnet.(**)").should().beFreeOfCycles();

    @ArchTest
    static final ArchRule aClassIsFinalOrMadeToBeExtended = classes()
            .that()
            .areTopLevelClasses()
            .and()
            .areNotInterfaces()
            .and()
            .doNotHaveSimpleName("package-info")
            .should()
            .haveModifier(JavaModifier.FINAL)
            .orShould()
            .haveModifier(JavaModifier.ABSTRACT);
}
