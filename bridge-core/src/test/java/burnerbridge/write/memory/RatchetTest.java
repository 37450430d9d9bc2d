package burnerbridge.write.memory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.Seed;
import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.guard.PhysicalUnit;
import burnerbridge.site.guard.Place;
import burnerbridge.site.guard.Protected;
import burnerbridge.write.store.DamagedFileException;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

class RatchetTest {
    private static final PhysicalUnit UNIT = unit("annex", 1);
    private static final String NUMBER = "SN-1";

    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());

    private static PhysicalUnit unit(String line, int number) {
        return new PhysicalUnit(new Name(line), new UnitId(number));
    }

    private static Guard guard(PointDefinition... points) {
        return Guard.ofUnit(List.of(new ControllerDefinition(
                0,
                new Name("boiler-1"),
                UNIT.line(),
                UNIT.unit(),
                new ControllerType(new Name("hot-water"), List.of(points)),
                1000)));
    }

    private static PointDefinition setting(int wire) {
        return Points.as(Role.SAFETY_SETTING, Points.uint16("limit-" + wire, wire));
    }

    private static Guard places(Place... places) {
        return guard().with(Arrays.stream(places).map(p -> new Protected(p, "")).toList());
    }

    private static Place place(RegisterTable table, int first, int last) {
        return Place.whole(new AddressRange(table, first, last));
    }

    private static Place holding(int first, int last) {
        return place(RegisterTable.HOLDING_REGISTER, first, last);
    }

    private static List<Place> of(Ratchet ratchet, PhysicalUnit unit, String identity) {
        return ratchet.of(unit, identity).stream().map(Protected::place).toList();
    }

    @Test
    void anAddressThatWasOnceProtectedStaysSoThoughItsRowHasAnotherRoleOrIsGone() throws IOException {
        Ratchet.open(disk, 0).remember(UNIT, NUMBER, guard(setting(7), setting(9)));
        disk.crash();
        Ratchet again = Ratchet.open(disk, 1);
        Guard relabelled = guard(Points.as(Role.DEMAND, Points.uint16("limit-7", 7)));
        again.remember(UNIT, NUMBER, relabelled);
        List<Place> written = List.of(holding(7, 7));
        assertThat(relabelled.against(written)).isEmpty();
        assertThat(relabelled.with(again.of(UNIT, NUMBER)).against(written))
                .hasValueSatisfying(entry -> assertThat(entry.why())
                        .isEqualTo("holding-register wire 7, which was once protected in unit 1 of line annex with"
                                + " identity SN-1"));
        assertThat(relabelled.with(again.of(UNIT, NUMBER)).against(List.of(holding(8, 8))))
                .isEmpty();
    }

    @Test
    void whoComesIntoAUnitOrStandsInAnotherOrderFreesNothing() throws IOException {
        Ratchet ratchet = Ratchet.open(disk, 0);
        ratchet.remember(UNIT, NUMBER, places(holding(1, 1)));
        String both = Ratchet.joined(List.of(NUMBER, "SN-2"));
        ratchet.remember(UNIT, both, places(holding(2, 2)));

        assertThat(of(ratchet, UNIT, both)).containsExactlyInAnyOrder(holding(1, 1), holding(2, 2));
        assertThat(of(ratchet, UNIT, Ratchet.joined(List.of("SN-2", NUMBER))))
                .as("the same two in another order")
                .containsExactlyInAnyOrder(holding(1, 1), holding(2, 2));
        assertThat(of(ratchet, unit("new-name", 1), "SN-2"))
                .as("one of them elsewhere, alone")
                .containsExactly(holding(2, 2));
        assertThat(of(ratchet, UNIT, Ratchet.joined(List.of("SN-3", "SN-4")))).isEmpty();
    }

    @Test
    void bitsOfARegisterAreRememberedAsBits() throws IOException {
        PointDefinition bit = Points.as(
                Role.LOCKOUT_RESET,
                Points.point(
                        "reset",
                        RegisterTable.HOLDING_REGISTER,
                        4,
                        new PointFormat.RegisterBit(3, 3),
                        Scaling.NONE,
                        States.NONE));
        Ratchet.open(disk, 0).remember(UNIT, "", guard(bit));
        assertThat(of(Ratchet.open(disk, 0), UNIT, ""))
                .containsExactly(new Place(holding(4, 4).range(), 8));
    }

    @Test
    void whichEntriesApplyDependsOnUnitAndIdentity() throws IOException {
        Ratchet ratchet = Ratchet.open(disk, 0);
        ratchet.remember(UNIT, NUMBER, places(holding(1, 1)));
        ratchet.remember(UNIT, "SN-2", places(holding(2, 2)));
        ratchet.remember(UNIT, "", places(holding(3, 3)));
        ratchet.remember(unit("annex", 2), "", places(holding(4, 4)));
        ratchet.remember(unit("old-name", 9), NUMBER, places(holding(5, 5)));
        ratchet.remember(unit("annex", 2), "SN-3", places(holding(6, 6)));

        assertThat(of(ratchet, UNIT, NUMBER))
                .as("this unit with this identity or none, and this identity anywhere")
                .containsExactlyInAnyOrder(holding(1, 1), holding(3, 3), holding(5, 5));
        assertThat(of(ratchet, UNIT, ""))
                .as("an unknown identity may be any that was ever there")
                .containsExactlyInAnyOrder(holding(1, 1), holding(2, 2), holding(3, 3));
        assertThat(of(ratchet, UNIT, "SN-9")).containsExactly(holding(3, 3));
        assertThat(of(ratchet, unit("new-name", 1), NUMBER))
                .as("a renamed line frees nothing")
                .containsExactlyInAnyOrder(holding(1, 1), holding(5, 5));
        assertThat(of(ratchet, unit("new-name", 1), "")).isEmpty();
    }

    @Test
    void nothingNewIsNotWritten() throws IOException {
        Ratchet ratchet = Ratchet.open(disk, 0);
        ratchet.remember(UNIT, NUMBER, guard());
        assertThat(disk.operations()).isZero();
        ratchet.remember(UNIT, NUMBER, guard(setting(7), setting(8)));
        assertThat(disk.forces()).isEqualTo(1);
        ratchet.remember(UNIT, NUMBER, guard(setting(8)));
        Ratchet.open(disk, 1).remember(UNIT, NUMBER, guard(setting(7), setting(8)));
        assertThat(disk.forces()).isEqualTo(1);
    }

    @Test
    void neighboursAreMergedAndTheFileStaysSmall() throws IOException {
        List<Place> all = new ArrayList<>();
        for (int wire = 0; wire < 2000; wire++) {
            all.add(holding(wire, wire));
        }
        Ratchet ratchet = Ratchet.open(disk, 0);
        ratchet.remember(UNIT, NUMBER, places(all.toArray(Place[]::new)));
        assertThat(of(ratchet, UNIT, NUMBER)).containsExactly(holding(0, 1999));
        assertThat(disk.look("ratchet")).hasSizeLessThan(300);
    }

    /** The oracle is a set of single bits. */
    @Test
    void noBitComesOrGoesWhateverIsRememberedInWhateverOrder() throws IOException {
        Random dice = new Random(Seed.value());
        for (int round = 0; round < 300; round++) {
            ForgetfulDisk own = new ForgetfulDisk(round);
            Set<String> bits = new HashSet<>();
            for (int i = 0; i < 6; i++) {
                List<Place> places = new ArrayList<>();
                for (int k = dice.nextInt(6); k >= 0; k--) {
                    RegisterTable table = RegisterTable.values()[dice.nextInt(4)];
                    int first = dice.nextInt(10) == 0 ? 65_530 : dice.nextInt(12);
                    AddressRange range = AddressRange.of(table, first, 1 + dice.nextInt(5));
                    Place place = table.ofBits() || dice.nextBoolean()
                            ? Place.whole(range)
                            : new Place(range, 1 + dice.nextInt(0xFFFF));
                    places.add(place);
                    bits.addAll(bitsOf(place));
                }
                Ratchet.open(own, 0).remember(UNIT, NUMBER, places(places.toArray(Place[]::new)));
            }
            Set<String> kept = new HashSet<>();
            List<Place> merged = of(Ratchet.open(own, 0), UNIT, NUMBER);
            merged.forEach(place -> {
                int before = kept.size();
                Set<String> its = bitsOf(place);
                kept.addAll(its);
                assertThat(kept).as("no bit twice").hasSize(before + its.size());
            });
            assertThat(kept).as("round %d", round).isEqualTo(bits);
        }
    }

    private static Set<String> bitsOf(Place place) {
        Set<String> bits = new HashSet<>();
        BitSet mask = BitSet.valueOf(new long[] {place.mask()});
        for (int address = place.range().first(); address <= place.range().last(); address++) {
            int at = address;
            mask.stream().forEach(bit -> bits.add(place.range().table().word() + " " + at + "." + bit));
        }
        return bits;
    }

    @Test
    void aDamagedMissingOrOlderRatchetFreesNothing() throws IOException {
        Ratchet ratchet = Ratchet.open(disk, 0);
        ratchet.remember(UNIT, NUMBER, guard(setting(7)));
        byte[] old = disk.look("ratchet");
        ratchet.remember(UNIT, NUMBER, guard(setting(8)));
        disk.meddle("ratchet", old);
        assertThatThrownBy(() -> Ratchet.open(disk, ratchet.generation()))
                .isInstanceOf(DamagedFileException.class)
                .hasMessageContaining("is an old one: the audit names its state 2 (was 1)");
        disk.meddle("ratchet", Arrays.copyOf(old, old.length - 1));
        assertThatThrownBy(() -> Ratchet.open(disk, 0)).hasMessageContaining("ratchet is damaged");
        disk.meddle("ratchet", null);
        assertThatThrownBy(() -> Ratchet.open(disk, 2)).hasMessageContaining("ratchet is missing");
        assertThat(Ratchet.anew(disk, 2).generation()).isEqualTo(3);
        assertThat(Ratchet.open(disk, 3).of(UNIT, NUMBER)).isEmpty();
    }

    @Test
    void thereIsPlaceForSoManyUnitsAndRangesAndThenItIsToldThatThereIsNone() throws IOException {
        Ratchet ratchet = Ratchet.open(disk, 0, 2, 3);
        ratchet.remember(UNIT, NUMBER, places(holding(1, 1)));
        ratchet.remember(UNIT, "SN-2", places(holding(1, 1)));
        assertThatThrownBy(() -> ratchet.remember(UNIT, "SN-3", places(holding(1, 1))))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("has place for 2 units (was 3)");
        ratchet.remember(UNIT, NUMBER, places(holding(3, 3)));
        assertThatThrownBy(() -> ratchet.remember(UNIT, NUMBER, places(holding(5, 5))))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("has place for 3 ranges (was 4)");
        assertThat(of(Ratchet.open(disk, ratchet.generation()), UNIT, NUMBER))
                .containsExactly(holding(1, 1), holding(3, 3));
    }

    @Test
    void aUnitWithThousandsOfRangesIsRememberedAtOnce() throws IOException {
        List<Place> apart = new ArrayList<>();
        for (int wire = 0; wire < 0xFFFF; wire += 2) {
            apart.add(holding(wire, wire));
        }
        Ratchet.open(disk, 0).remember(UNIT, NUMBER, places(apart.toArray(Place[]::new)));
        assertThat(of(Ratchet.open(disk, 1), UNIT, NUMBER)).isEqualTo(apart);
    }

    @Test
    void identitiesOfAUnitAreJoinedAndOneThatIsMissingMakesThemUnknown() {
        assertThat(Ratchet.joined(List.of("a"))).isEqualTo("a");
        assertThat(Ratchet.joined(List.of("a", ""))).isEmpty();
        assertThat(Ratchet.joined(List.of("a", "b"))).isNotEqualTo(Ratchet.joined(List.of("b", "a")));
        assertThat(Ratchet.joined(List.of("a\u001fb"))).isNotEqualTo(Ratchet.joined(List.of("a", "b")));
    }

    @Test
    void whatRememberReturnedForIsNeverForgottenWhereverThePowerWent() throws IOException {
        for (int seed = 0; seed < 20; seed++) {
            for (int at = 1; at <= 25; at++) {
                ForgetfulDisk cut = new ForgetfulDisk(Seed.value() + seed * 100L + at);
                cut.crashAt(at);
                List<Integer> remembered = new ArrayList<>();
                long generation = 0;
                try {
                    Ratchet ratchet = Ratchet.open(cut, 0);
                    for (int wire = 0; wire < 30; wire++) {
                        ratchet.remember(
                                unit("annex", 1 + wire % 3), wire % 2 == 0 ? NUMBER : "", guard(setting(wire)));
                        remembered.add(wire);
                        generation = ratchet.generation();
                    }
                } catch (ForgetfulDisk.PowerCut e) {
                    cut.crash();
                }
                Ratchet again = Ratchet.open(cut, generation);
                for (int wire : remembered) {
                    assertThat(guard().with(again.of(unit("annex", 1 + wire % 3), NUMBER))
                                    .against(new AddressRange(RegisterTable.HOLDING_REGISTER, wire, wire)))
                            .as("address %d after a power cut at operation %d", wire, at)
                            .isPresent();
                }
            }
        }
    }
}
