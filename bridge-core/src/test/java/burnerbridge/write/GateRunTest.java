package burnerbridge.write;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Seed;
import burnerbridge.site.PointId;
import burnerbridge.site.RegisterTable;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Legal asks, each turned into an illegal one by a single change, put to a gate before a controller that counts write
 * frames. Each question says no at least a hundred times and yes at least a hundred times, and whatever it says, no frame
 * leaves that was not admitted.
 */
class GateRunTest {
    private static final int ENOUGH = 100;
    private static final int MOST = 60_000;
    private static final List<Question> ALL = List.of(Question.values());

    private final Random dice = new Random(Seed.value());
    private final Map<Question, Integer> noes = new EnumMap<>(Question.class);
    private final Map<Question, Integer> yeses = new EnumMap<>(Question.class);

    /** A rig of its own for what makes a whole gate say no. */
    private static final class Rigs {
        final GateRig approved = GateRig.ready();
        final GateRig unapproved = waited(new GateRig(new Kept(), GateRig.site(GateRig.usualPermits()), false));
        final GateRig worn = wornOut();
        final GateRig fresh = new GateRig();
        final GateRig mistyped = waited(new GateRig(new Kept(), GateRig.mistyped(), true));

        private static GateRig waited(GateRig rig) {
            rig.forward(GateRig.INTERVAL);
            return rig;
        }

        private static GateRig wornOut() {
            Kept kept = new Kept();
            kept.spend(GateRig.LOAD, GateRig.LIFETIME - 100);
            return waited(new GateRig(kept, GateRig.site(GateRig.usualPermits()), true));
        }
    }

    @Test
    void eachQuestionSaysNoAndYesAHundredTimesAndNothingLeavesThatWasNotAdmitted() {
        Rigs rigs = new Rigs();
        int asks = 0;
        while (asks < MOST && !isEnough()) {
            asks++;
            Question mutant = ALL.get(dice.nextInt(ALL.size()));
            boolean mutate = dice.nextInt(3) > 0;
            GateRig rig = rigOf(rigs, mutate ? mutant : Question.ANSWERING);
            one(rig, mutate ? Optional.of(mutant) : Optional.empty());
        }
        for (Question question : ALL) {
            assertThat(noes.getOrDefault(question, 0))
                    .as("no to %s in %d asks", question, asks)
                    .isGreaterThanOrEqualTo(ENOUGH);
            assertThat(yeses.getOrDefault(question, 0))
                    .as("yes to %s in %d asks", question, asks)
                    .isGreaterThanOrEqualTo(ENOUGH);
        }
        assertThat(rigs.unapproved.unit.frames).isEmpty();
        assertThat(rigs.mistyped.unit.frames).isEmpty();
        assertThat(rigs.fresh.unit.frames).isEmpty();
        assertThat(rigs.approved.unit.frames).isNotEmpty();
    }

    private boolean isEnough() {
        return ALL.stream()
                .allMatch(question ->
                        noes.getOrDefault(question, 0) >= ENOUGH && yeses.getOrDefault(question, 0) >= ENOUGH);
    }

    private static GateRig rigOf(Rigs rigs, Question mutant) {
        return switch (mutant) {
            case APPROVED -> rigs.unapproved;
            case BUDGET -> rigs.worn;
            case INTERVAL -> rigs.fresh;
            case ROLE, PROTECTED -> rigs.mistyped;
            default -> rigs.approved;
        };
    }

    private void one(GateRig rig, Optional<Question> mutant) {
        if (mutant.isEmpty() || mutant.get() != Question.INTERVAL) {
            untilItMayBeWritten(rig);
        }
        int framesBefore = rig.unit.frames.size();
        Runnable undo = spoil(rig, mutant);
        Ask ask = mutated(rig, mutant);
        Decision decision = rig.gate.ask(ask);
        if (decision instanceof Decision.Refused refused) {
            rig.work();
            assertThat(rig.unit.frames).as("frames after %s", refused).hasSize(framesBefore);
            mutant.ifPresent(
                    question -> assertThat(refused.question()).as("%s", refused).isEqualTo(question));
            noes.merge(refused.question(), 1, Integer::sum);
            ALL.stream()
                    .filter(question -> question.compareTo(refused.question()) < 0)
                    .forEach(this::yes);
        } else {
            assertThat(mutant).as("%s was admitted", ask).isEmpty();
            rig.work();
            assertThat(rig.unit.frames.size() - framesBefore).isBetween(0, 1);
            ALL.forEach(this::yes);
        }
        undo.run();
    }

    /** A lease that ends on the way is a write for silence, after which an interval passes again. */
    private static void untilItMayBeWritten(GateRig rig) {
        int before;
        do {
            before = rig.unit.frames.size();
            rig.forward(GateRig.INTERVAL.plusSeconds(1));
            rig.poll();
        } while (rig.unit.frames.size() > before);
    }

    private void yes(Question question) {
        yeses.merge(question, 1, Integer::sum);
    }

    /** Makes the world such that a legal ask is refused; how it is made well again. */
    private Runnable spoil(GateRig rig, Optional<Question> mutant) {
        if (mutant.isEmpty()) {
            return () -> {};
        }
        return switch (mutant.get()) {
            case ANSWERING -> {
                link(rig, ControllerLink.down(ControllerLink.Cause.NO_REPLY, "no reply", rig.clock.now()));
                yield () -> link(rig, ControllerLink.up(rig.clock.now()));
            }
            case IDENTITY -> {
                rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0x5330 + (dice.nextBoolean() ? 9 : 2));
                rig.poll();
                yield () -> {
                    rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0x5331);
                    rig.poll();
                };
            }
            case RECORD -> {
                rig.kept.disk.fail(true);
                rig.keeping.told(new WriteEvent(WriteEvent.Kind.HELD, GateRig.LOAD, "something to be kept"));
                rig.gate.step(rig.clock.ticks());
                yield () -> {
                    rig.kept.disk.fail(false);
                    rig.gate.step(rig.clock.ticks());
                };
            }
            default -> () -> {};
        };
    }

    private static void link(GateRig rig, ControllerLink link) {
        rig.table.publish(rig.site.controllers().get(0), link);
        rig.gate.step(rig.clock.ticks());
    }

    private Ask mutated(GateRig rig, Optional<Question> mutant) {
        PointId point = GateRig.LOAD;
        Wanted wanted = new Wanted.Number(near(rig, new BigDecimal("4.9")));
        int slot = 1 + dice.nextInt(5);
        Source source = dice.nextBoolean() ? GateRig.STATION : GateRig.OPTIMISER;
        OptionalLong notAfter = dice.nextBoolean()
                ? OptionalLong.empty()
                : OptionalLong.of(rig.clock.ticks() + Duration.ofSeconds(60).toNanos());
        if (mutant.isPresent()) {
            switch (mutant.get()) {
                case KNOWN_POINT -> point = GateRig.id("boiler-" + (3 + dice.nextInt(9)), "load-demand");
                case PERMIT -> {
                    if (dice.nextBoolean()) {
                        point = GateRig.LIMIT;
                    } else {
                        slot = Ask.KEPT_SLOT;
                    }
                }
                case ROLE -> point = GateRig.LIMIT;
                case PROTECTED -> point = GateRig.id("boiler-1", "alias");
                case SOURCE -> source = new Source.Bacnet(0xC0000300 + dice.nextInt(256), 47808, 0);
                case FRESH -> notAfter = OptionalLong.of(rig.clock.ticks() - 1 - dice.nextInt(1_000_000));
                case TYPE -> wanted = noNumber();
                case RANGE -> wanted = new Wanted.Number(outside());
                case STEP -> wanted = new Wanted.Number(far(rig));
                case BUDGET, INTERVAL, APPROVED, IDENTITY, ANSWERING, RECORD -> {}
            }
        }
        return new Ask(point, wanted, slot, source, notAfter, Optional.empty());
    }

    private static BigDecimal present(GateRig rig) {
        return BigDecimal.valueOf(rig.register(1, 44), 1);
    }

    /** Within a step of what is there, within the range, and on a step of the register, other than what is there. */
    private BigDecimal near(GateRig rig, BigDecimal most) {
        BigDecimal present = present(rig);
        BigDecimal change = most.multiply(BigDecimal.valueOf(0.05 + 0.9 * dice.nextDouble()))
                .setScale(1, RoundingMode.UP);
        boolean up = present.compareTo(new BigDecimal("55")) < 0;
        return up ? present.add(change) : present.subtract(change);
    }

    /** Further than a step, and what no slot holds, since an equal ask may stand wherever it is. */
    private BigDecimal far(GateRig rig) {
        BigDecimal far = anyFar(rig);
        while (isHeld(rig, far)) {
            far = anyFar(rig);
        }
        return far;
    }

    private static boolean isHeld(GateRig rig, BigDecimal value) {
        return rig.gate.statuses().get(0).slots().stream()
                .anyMatch(slot -> slot.value().compareTo(value) == 0);
    }

    private BigDecimal anyFar(GateRig rig) {
        boolean up = present(rig).compareTo(new BigDecimal("55")) < 0;
        BigDecimal change = new BigDecimal("10.1").add(BigDecimal.valueOf(dice.nextInt(200), 1));
        return up ? present(rig).add(change) : present(rig).subtract(change);
    }

    private BigDecimal outside() {
        BigDecimal beyond = BigDecimal.valueOf(1 + dice.nextInt(100_000), 1);
        return dice.nextBoolean() ? new BigDecimal("90").add(beyond) : new BigDecimal("20").subtract(beyond);
    }

    private Wanted noNumber() {
        return switch (dice.nextInt(4)) {
            case 0 -> Wanted.Number.of(Double.NaN);
            case 1 -> Wanted.Number.of(Double.POSITIVE_INFINITY);
            case 2 -> Wanted.Number.of(Double.NEGATIVE_INFINITY);
            default -> new Wanted.NoNumber("\"thirty\"");
        };
    }
}
