package burnerbridge.write.memory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.Seed;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.write.store.DamagedFileException;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class GateMemoryTest {
    private static final PointId DEMAND = new PointId(new Name("boiler-1"), new Name("load-demand"));
    private static final PointId ENABLE = new PointId(new Name("boiler-1"), new Name("enable"));
    private static final String FILE = "gate-memory";
    private static final PointMemory.Asleep WHY =
            new PointMemory.Asleep("another writer: \"ü\"", Instant.parse("2026-11-25T08:00:00.250Z"), false);

    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());

    @Test
    void everythingIsThereAgainAfterAPowerCut() throws IOException {
        GateMemory memory = GateMemory.open(disk, 0);
        assertThat(memory.of(DEMAND)).isEqualTo(PointMemory.NONE);
        assertThat(memory.debit(DEMAND)).isEqualTo(1);
        assertThat(memory.debit(DEMAND)).isEqualTo(2);
        memory.change(DEMAND, m -> m.owing(true).wrote(new BigDecimal("42.50")));
        memory.change(ENABLE, m -> m.asleep(WHY));
        disk.crash();
        GateMemory again = GateMemory.open(disk, memory.generation());
        assertThat(again.of(DEMAND))
                .isEqualTo(new PointMemory(2, true, Optional.empty(), Optional.of(new BigDecimal("42.5"))));
        assertThat(again.of(ENABLE)).isEqualTo(PointMemory.NONE.asleep(WHY));
        assertThat(again.generation()).isEqualTo(memory.generation());
        again.change(ENABLE, PointMemory::awake);
        assertThat(GateMemory.open(disk, 0).of(ENABLE)).isEqualTo(PointMemory.NONE);
    }

    @Test
    void anyNumberIsKeptToItsLastDigit() throws IOException {
        BigDecimal value = new BigDecimal("-0.0000001234567890123456789");
        GateMemory.open(disk, 0).change(DEMAND, m -> m.wrote(value));
        assertThat(GateMemory.open(disk, 0).of(DEMAND).written()).contains(value);
        GateMemory.open(disk, 0).change(DEMAND, m -> m.wrote(new BigDecimal("1E+20")));
        assertThat(GateMemory.open(disk, 0).of(DEMAND).written().orElseThrow()).isEqualByComparingTo("1E+20");
    }

    @Test
    void whatStaysTheSameIsNotWritten() throws IOException {
        GateMemory memory = GateMemory.open(disk, 0);
        memory.change(DEMAND, m -> m.owing(true).wrote(new BigDecimal("20.0")));
        long forces = disk.forces();
        memory.change(DEMAND, m -> m.owing(true).wrote(new BigDecimal("20")));
        assertThat(disk.forces()).isEqualTo(forces);
        assertThat(memory.generation()).isEqualTo(1);
    }

    @Test
    void severalPointsChangeTogetherOrNotAtAll() throws IOException {
        GateMemory memory = GateMemory.open(disk, 0);
        memory.change(Map.of(DEMAND, PointMemory.NONE.owing(true), ENABLE, PointMemory.NONE.owing(true)));
        assertThat(disk.forces()).isEqualTo(1);
        disk.failAt(1);
        assertThatThrownBy(() -> memory.change(Map.of(DEMAND, PointMemory.NONE, ENABLE, PointMemory.NONE)))
                .isInstanceOf(IOException.class);
        assertThat(memory.of(DEMAND).owed()).isTrue();
        assertThat(memory.of(ENABLE).owed()).isTrue();
    }

    @Test
    void aSpentWriteIsNeverGivenBack() throws IOException {
        GateMemory memory = GateMemory.open(disk, 0);
        memory.debit(DEMAND);
        assertThatThrownBy(() -> memory.change(DEMAND, m -> PointMemory.NONE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("boiler-1.load-demand has spent 1 writes");
        assertThat(memory.of(DEMAND).spent()).isEqualTo(1);
    }

    @Test
    void aDamagedMemoryIsNotAnEmptyOne() throws IOException {
        GateMemory.open(disk, 0).debit(DEMAND);
        byte[] whole = disk.look(FILE);
        for (byte[] damaged :
                new byte[][] {new byte[0], Arrays.copyOf(whole, whole.length / 2), new byte[whole.length]}) {
            disk.meddle(FILE, damaged);
            assertThatThrownBy(() -> GateMemory.open(disk, 0))
                    .isInstanceOf(DamagedFileException.class)
                    .hasMessageContaining("gate-memory is damaged");
        }
        disk.meddle(FILE, whole);
        disk.makeUnreadable(FILE);
        assertThatThrownBy(() -> GateMemory.open(disk, 0)).hasMessageContaining("cannot be read");
    }

    @Test
    void aMissingOrAnOlderMemoryIsRefusedWhereTheAuditKnowsBetter() throws IOException {
        GateMemory memory = GateMemory.open(disk, 0);
        memory.debit(DEMAND);
        byte[] old = disk.look(FILE);
        memory.debit(DEMAND);
        disk.meddle(FILE, old);
        assertThatThrownBy(() -> GateMemory.open(disk, memory.generation()))
                .isInstanceOf(DamagedFileException.class)
                .hasMessageContaining("has state 1, and the audit names state 2");
        disk.meddle(FILE, null);
        assertThatThrownBy(() -> GateMemory.open(disk, memory.generation()))
                .isInstanceOf(DamagedFileException.class)
                .hasMessageContaining("missing");
        GateMemory anew = GateMemory.anew(disk, memory.generation(), Map.of(DEMAND, PointMemory.NONE.debited()));
        assertThat(anew.generation()).isEqualTo(3);
        assertThat(GateMemory.open(disk, 3).of(DEMAND).spent()).isEqualTo(1);
    }

    @Test
    void aDebitThatCouldNotBeForcedLeavesTheNextOneToCountIt() throws IOException {
        for (int at = 1; at <= 3; at++) {
            ForgetfulDisk failing = new ForgetfulDisk(Seed.value() + at);
            GateMemory memory = GateMemory.open(failing, 0);
            failing.failAt(at);
            int spent = 0;
            for (int i = 0; i < 5; i++) {
                try {
                    memory.debit(DEMAND);
                    spent++;
                } catch (IOException e) {
                    // Nothing was sent for this one.
                }
            }
            assertThat(spent).isEqualTo(4);
            assertThat(GateMemory.open(failing, memory.generation()).of(DEMAND).spent())
                    .isEqualTo(4);
        }
    }

    /** Debits, leases and sleep at random, and the power goes at every operation. */
    @Test
    void noDebitIsLostOnceItReturnedWhereverThePowerWent() throws IOException {
        for (int round = 0; round < 40; round++) {
            for (int at = 1; at <= 30; at++) {
                Random dice = new Random(Seed.value() + round);
                ForgetfulDisk cut = new ForgetfulDisk(Seed.value() + round * 1000L + at);
                cut.crashAt(at);
                Map<PointId, PointMemory> returned = new HashMap<>();
                Map<PointId, PointMemory> tried = new HashMap<>();
                long generation = 0;
                try {
                    GateMemory memory = GateMemory.open(cut, 0);
                    while (true) {
                        PointId point = dice.nextBoolean() ? DEMAND : ENABLE;
                        PointMemory next = changed(memory.of(point), dice);
                        tried.put(point, next);
                        memory.change(Map.of(point, next));
                        returned.put(point, next);
                        generation = memory.generation();
                    }
                } catch (ForgetfulDisk.PowerCut e) {
                    cut.crash();
                }
                GateMemory again = GateMemory.open(cut, generation);
                for (PointId point : new PointId[] {DEMAND, ENABLE}) {
                    assertThat(again.of(point))
                            .as("%s after a power cut at operation %d of round %d", point, at, round)
                            .isIn(
                                    returned.getOrDefault(point, PointMemory.NONE),
                                    tried.getOrDefault(point, PointMemory.NONE));
                }
            }
        }
    }

    private static PointMemory changed(PointMemory before, Random dice) {
        return switch (dice.nextInt(4)) {
            case 0 -> before.owing(!before.owed());
            case 1 -> before.asleep().isPresent() ? before.awake() : before.asleep(WHY);
            case 2 -> before.wrote(BigDecimal.valueOf(dice.nextInt(1000), 1));
            default -> before.debited();
        };
    }
}
