package burnerbridge.site.guard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Meaning;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointOptions;
import burnerbridge.site.Points;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.TypeOptions;
import burnerbridge.site.TypeOptions.Stated;
import burnerbridge.site.UnitId;
import burnerbridge.site.WordOrder;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Which registers of a unit can never be written. */
class GuardTest {
    private static final RegisterTable HOLDING = RegisterTable.HOLDING_REGISTER;

    private static PointDefinition row(String name, RegisterTable table, int wire, PointFormat format, Role role) {
        return Points.as(role, Points.point(name, table, wire, format, Scaling.NONE, States.NONE));
    }

    private static PointDefinition demand(int wire) {
        return row("demand", HOLDING, wire, PointFormat.UINT16, Role.DEMAND);
    }

    private static TypeOptions options(boolean separate, Stated... guarded) {
        return new TypeOptions(Optional.empty(), Optional.empty(), List.of(), List.of(guarded), separate);
    }

    private static ControllerDefinition controller(
            String name, int unit, int offset, TypeOptions options, PointDefinition... points) {
        ControllerType type = new ControllerType(new Name("kind"), List.of(points), ReadRules.NONE, options);
        return new ControllerDefinition(
                0, new Name(name), new Name("annex"), new UnitId(unit), type.shiftedBy(offset), 0, false, offset);
    }

    private static Guard separate(PointDefinition... points) {
        return Guard.ofUnit(List.of(controller("boiler-1", 1, 0, options(true), points)));
    }

    private static Guard unstated(PointDefinition... points) {
        return Guard.ofUnit(List.of(controller("boiler-1", 1, 0, options(false), points)));
    }

    private static boolean forbids(Guard guard, RegisterTable table, int address) {
        return guard.against(AddressRange.of(table, address, 1)).isPresent();
    }

    @Test
    void everyRoleThatCannotBePermittedProtectsItsRegistersAndTheOthersDoNot() {
        for (Role role : Role.values()) {
            Guard guard = separate(row("one", HOLDING, 7, PointFormat.UINT16, role));
            assertThat(forbids(guard, HOLDING, 7)).as("%s", role).isEqualTo(!role.mayBePermitted());
        }
        assertThat(Role.values()).filteredOn(Role::mayBePermitted).hasSize(5);
    }

    @Test
    void itSaysWhichRowAndAddressForbidsAWriteInBothNumberings() {
        Guard guard = separate(row("high-limit", HOLDING, 6, PointFormat.UINT16, Role.SAFETY_SETTING));
        assertThat(guard.against(AddressRange.of(HOLDING, 5, 2)))
                .map(Protected::why)
                .contains("high-limit of boiler-1 at holding-register 7 (wire 6), whose role is safety-setting");
    }

    @Test
    void everyRegisterOfALongValueIsProtectedAndItsNeighboursAreNot() {
        Guard guard = separate(
                row("total", HOLDING, 10, new PointFormat.Whole(64, false, WordOrder.HIGH_WORD_FIRST), Role.COUNTER));
        assertThat(forbids(guard, HOLDING, 9)).isFalse();
        for (int address = 10; address < 14; address++) {
            assertThat(forbids(guard, HOLDING, address)).isTrue();
        }
        assertThat(forbids(guard, HOLDING, 14)).isFalse();
    }

    @Test
    void aWriteThatOnlyReachesIntoAProtectedRegisterIsForbidden() {
        Guard guard = separate(row("limit", HOLDING, 12, PointFormat.UINT16, Role.SAFETY_SETTING));
        PointDefinition wide =
                row("demand", HOLDING, 11, new PointFormat.Whole(32, false, WordOrder.HIGH_WORD_FIRST), Role.DEMAND);
        assertThat(guard.against(Place.writtenBy(wide))).isPresent();
        assertThat(guard.against(Place.writtenBy(demand(11)))).isEmpty();
    }

    @Test
    void aBitOfARegisterThatHoldsAProtectedBitIsForbiddenSinceAWriteCountsForAllBits() {
        Guard guard = separate(row("trip", HOLDING, 3, new PointFormat.RegisterBit(15, 15), Role.STATUS));
        PointDefinition bit = row("enable", HOLDING, 3, new PointFormat.RegisterBit(0, 0), Role.ENABLE);
        assertThat(guard.against(Place.writtenBy(bit))).isPresent();
        assertThat(guard.against(Place.readBy(bit))).isEmpty();
    }

    @Test
    void anAliasInAFormOfAnotherNameIsForbidden() {
        Guard guard = separate(
                row("limit", HOLDING, 40, new PointFormat.HalfRegister(true, false), Role.SAFETY_SETTING), demand(40));
        assertThat(guard.against(Place.writtenBy(demand(40)))).isPresent();
    }

    @Test
    void tablesThatAreStatedToBeSeparateDoNotProtectEachOther() {
        Guard guard = separate(row("flame", RegisterTable.INPUT_REGISTER, 5, PointFormat.UINT16, Role.STATUS));
        assertThat(forbids(guard, HOLDING, 5)).isFalse();
        assertThat(forbids(guard, RegisterTable.COIL, 5)).isFalse();
        assertThat(guard.tablesAreSeparate()).isTrue();
    }

    @Test
    void tablesOfOneWidthAreOneWhereNobodySaysOtherwise() {
        Guard guard = unstated(row("flame", RegisterTable.INPUT_REGISTER, 5, PointFormat.UINT16, Role.STATUS));
        assertThat(forbids(guard, HOLDING, 5)).isTrue();
        assertThat(forbids(guard, HOLDING, 6)).isFalse();
        Guard ofBits = unstated(row("flame", RegisterTable.DISCRETE_INPUT, 5, new PointFormat.Bit(), Role.STATUS));
        assertThat(forbids(ofBits, RegisterTable.COIL, 5)).isTrue();
        assertThat(forbids(ofBits, RegisterTable.COIL, 6)).isFalse();
    }

    @Test
    void whereNobodySaysOtherwiseACoilMayLieInAnyProtectedRegisterAndTheOtherWayRound() {
        Guard ofRegister = unstated(row("limit", HOLDING, 700, PointFormat.UINT16, Role.SAFETY_SETTING));
        assertThat(forbids(ofRegister, RegisterTable.COIL, 3)).isTrue();
        Guard ofBit = unstated(row("flame", RegisterTable.DISCRETE_INPUT, 700, new PointFormat.Bit(), Role.STATUS));
        assertThat(forbids(ofBit, HOLDING, 3)).isTrue();
        assertThat(forbids(unstated(demand(9)), RegisterTable.COIL, 3)).isFalse();
    }

    @Test
    void oneControllerOfTheUnitThatDoesNotSaySoMakesAllTablesOne() {
        Guard guard = Guard.ofUnit(List.of(
                controller("boiler-1", 1, 0, options(true)),
                controller(
                        "boiler-2",
                        1,
                        100,
                        options(false),
                        row("flame", RegisterTable.INPUT_REGISTER, 5, PointFormat.UINT16, Role.STATUS))));
        assertThat(guard.tablesAreSeparate()).isFalse();
        assertThat(forbids(guard, HOLDING, 105)).isTrue();
        assertThat(forbids(guard, HOLDING, 5)).isFalse();
    }

    @Test
    void allControllersOfAUnitCountAndNoneOfAnother() {
        ControllerDefinition one = controller("boiler-1", 1, 0, options(true), demand(50));
        ControllerDefinition sameUnit = controller(
                "boiler-2", 1, 40, options(true), row("limit", HOLDING, 10, PointFormat.UINT16, Role.SETTING));
        ControllerDefinition other = controller(
                "boiler-3", 2, 0, options(true), row("limit", HOLDING, 51, PointFormat.UINT16, Role.SETTING));
        Map<PhysicalUnit, Guard> guards = Guard.of(List.of(one, sameUnit, other));
        assertThat(guards).hasSize(2);
        Guard guard = guards.get(PhysicalUnit.of(one));
        assertThat(guard).isNotNull();
        assertThat(guard.against(Place.writtenBy(demand(50))))
                .map(Protected::why)
                .contains("limit of boiler-2 at holding-register 11 (wire 50), whose role is setting");
        assertThat(forbids(guard, HOLDING, 51)).isFalse();
    }

    @Test
    void aGroupIsInNoUnitAndHasNoGuard() {
        ControllerDefinition member = controller("boiler-1", 1, 0, options(true), demand(50));
        ControllerDefinition group = new ControllerDefinition(
                1, new Name("house"), new ControllerDefinition.OfMembers(List.of(member)), member.type(), 0);
        assertThat(Guard.of(List.of(member, group))).containsOnlyKeys(PhysicalUnit.of(member));
        assertThat(PhysicalUnit.of(member)).hasToString("unit 1 of line annex");
    }

    @Test
    void aProtectedRangeForbidsWhateverLiesInItAndMovesWithItsController() {
        Stated range = new Stated("holding-register 400-520", new AddressRange(HOLDING, 399, 519));
        Guard guard = Guard.ofUnit(List.of(controller("boiler-1", 1, 1000, options(true, range))));
        assertThat(forbids(guard, HOLDING, 519)).isFalse();
        assertThat(guard.against(AddressRange.of(HOLDING, 1519, 1)))
                .map(Protected::why)
                .contains("the protected range holding-register 400-520 (wire 1399..1519) of type kind");
    }

    @Test
    void reservedAddressesAreProtectedToo() {
        ControllerType type = new ControllerType(
                new Name("kind"),
                List.of(demand(1)),
                ReadRules.NONE.withReserved(List.of(AddressRange.of(HOLDING, 60, 4))),
                options(true));
        Guard guard = Guard.ofUnit(
                List.of(new ControllerDefinition(0, new Name("boiler-1"), new Name("annex"), new UnitId(1), type, 0)));
        assertThat(forbids(guard, HOLDING, 63)).isTrue();
        assertThat(forbids(guard, HOLDING, 64)).isFalse();
    }

    @Test
    void theFuelIsProtectedWhateverTheRoleOfItsRow() {
        PointDefinition fuel =
                row("fuel", HOLDING, 8, PointFormat.UINT16, Role.MODE).with(PointOptions.meaning(Meaning.FUEL));
        assertThat(Guard.isProtected(fuel)).isTrue();
        assertThat(separate(fuel).against(Place.writtenBy(fuel)))
                .map(Protected::why)
                .contains("fuel of boiler-1 at holding-register 9 (wire 8), which means fuel");
    }

    @Test
    void whatIsAddedIsProtectedAsWell() {
        Guard guard = separate(demand(1))
                .with(List.of(new Protected(
                        Place.whole(AddressRange.of(HOLDING, 1, 1)), "what was once protected stays so")));
        assertThat(guard.against(Place.writtenBy(demand(1))))
                .map(Protected::why)
                .contains("what was once protected stays so");
    }

    @Test
    void twoWritesMayMeetWhereTheyWouldChangeOneRegister() {
        Guard guard = separate();
        assertThat(guard.mayMeet(Place.writtenBy(demand(4)), Place.writtenBy(demand(4))))
                .isTrue();
        assertThat(guard.mayMeet(Place.writtenBy(demand(4)), Place.writtenBy(demand(5))))
                .isFalse();
        PointDefinition coil = row("enable", RegisterTable.COIL, 9, new PointFormat.Bit(), Role.ENABLE);
        assertThat(guard.mayMeet(Place.writtenBy(demand(4)), Place.writtenBy(coil)))
                .isFalse();
        assertThat(unstated().mayMeet(Place.writtenBy(demand(4)), Place.writtenBy(coil)))
                .isTrue();
    }

    /** What a guard protects is remembered for good, in as few bits as the value is made of. */
    @ParameterizedTest
    @MethodSource
    void theBitsThatAValueIsMadeOfAreThoseThatItsRowProtects(PointFormat format, int mask) {
        Guard guard = separate(row("limit", HOLDING, 40, format, Role.SAFETY_SETTING));
        assertThat(guard.entries())
                .singleElement()
                .extracting(Protected::place)
                .isEqualTo(new Place(AddressRange.of(HOLDING, 40, 1), mask));
    }

    static Stream<Arguments> theBitsThatAValueIsMadeOfAreThoseThatItsRowProtects() {
        return Stream.of(
                Arguments.of(PointFormat.UINT16, 0xFFFF),
                Arguments.of(new PointFormat.RegisterBit(9, 9), 0x0200),
                Arguments.of(new PointFormat.BitField(4, 3, "bits:4-6"), 0x0070),
                Arguments.of(new PointFormat.BitField(0, 2, "bits:0-1"), 0x0003),
                Arguments.of(new PointFormat.HalfRegister(true, false), 0xFF00),
                Arguments.of(new PointFormat.HalfRegister(false, false), 0x00FF));
    }

    @Test
    void aPlaceHasBitsAndShowsThemWhereTheyAreNotAll() {
        assertThat(new Place(AddressRange.of(HOLDING, 3, 1), 0x00F0)).hasToString("holding-register wire 3 bits 0xF0");
        assertThat(Place.whole(AddressRange.of(HOLDING, 3, 2))).hasToString("holding-register wire 3..4");
        assertThat(Place.whole(AddressRange.of(RegisterTable.COIL, 3, 1)).mask())
                .isEqualTo(1);
        assertThatThrownBy(() -> new Place(AddressRange.of(RegisterTable.COIL, 3, 1), 2))
                .hasMessage("the bits of coil are 1 to 0x1 (was 0x2)");
        assertThatThrownBy(() -> new Place(AddressRange.of(HOLDING, 3, 1), 0)).hasMessageContaining("1 to 0xffff");
    }
}
