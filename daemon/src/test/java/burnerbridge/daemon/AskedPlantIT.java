package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.Seed;
import burnerbridge.simulator.device.WrittenFrame;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.permit.AddressBlock;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Askers;
import burnerbridge.site.permit.Functions;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.Storage;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.ApprovalDesk;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Duration;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Legal asks, and asks made illegal by a single change, before units on a real line that count every write frame: each
 * question says no at least a hundred times and yes at least a hundred times, and on the wire there is one frame for each
 * ask that was admitted to be written, and not one more.
 */
class AskedPlantIT {
    private static final int ENOUGH = 100;
    private static final int UNITS = 24;
    private static final int WORN = UNITS;
    private static final int SWAPPED = UNITS - 1;
    private static final int AWAY = UNITS - 2;
    private static final int LAST_SOUND = UNITS - 3;
    private static final Source.Bacnet STATION = new Source.Bacnet(0x7F000001, 47808, 0);
    private static final PointId LIMIT = id("high-limit");
    private static final PointId ALIAS = id("alias");
    private static final List<Question> AT_ANY_TIME = List.of(
            Question.KNOWN_POINT,
            Question.PERMIT,
            Question.SOURCE,
            Question.FRESH,
            Question.TYPE,
            Question.RANGE,
            Question.STEP,
            Question.INTERVAL);

    private final Random dice = new Random(Seed.value());
    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
    private final Map<Question, Integer> noes = new EnumMap<>(Question.class);
    private final Map<Question, Integer> yeses = new EnumMap<>(Question.class);
    private final AtomicInteger written = new AtomicInteger();
    private final Set<String> admitted = new HashSet<>();
    private final List<String> surprises = new CopyOnWriteArrayList<>();
    private int toBeWritten;

    @SuppressWarnings("NullAway.Init")
    private AskedPlant plant;

    private static PointId id(String row) {
        return new PointId(new Name("boiler-1"), new Name(row));
    }

    /** As the loader would never let it pass. */
    private static WritePermit mistyped(PointId point) {
        return new WritePermit(
                point,
                new Purpose.Asked(
                        new Askers(List.of(AddressBlock.parse("127.0.0.1").orElseThrow()), true),
                        new Allowed.Range(new BigDecimal("20"), new BigDecimal("90")),
                        Optional.empty(),
                        Duration.ofSeconds(1),
                        12,
                        Optional.of(new Silence(Duration.ofHours(1), new Silence.Action.Write(new BigDecimal("20"))))),
                Functions.SINGLE_REGISTER,
                Storage.VOLATILE,
                "a run");
    }

    @BeforeEach
    void start(@TempDir Path folder) throws IOException {
        plant = new AskedPlant(folder, disk, UNITS, List.of());
    }

    @AfterEach
    void end() {
        if (plant != null) {
            plant.close();
        }
    }

    @Test
    void eachQuestionSaysNoAndYesAHundredTimesAndNoFrameIsOnTheWireThatWasNotAdmitted(@TempDir Path folder)
            throws Exception {
        whatCanNeverBeWritten(folder);
        for (int i = 0; i < ENOUGH; i++) {
            refused(legal(1 + dice.nextInt(UNITS)), Question.APPROVED);
        }
        assertThat(plant.gate.approve("a person", Optional.empty(), Duration.ofSeconds(30), LockSupport::parkNanos))
                .isTrue();
        spoilTheWorld();
        while (!isEnough()) {
            List<Question> lacking = AT_ANY_TIME.stream()
                    .filter(question -> noes.getOrDefault(question, 0) < ENOUGH)
                    .toList();
            if (lacking.isEmpty() || dice.nextInt(10) == 0) {
                ready().ifPresent(unit -> admitted(legal(unit), unit));
            } else {
                one(lacking.get(dice.nextInt(lacking.size())));
            }
        }
        noRecordCanBeKept();
        untilAllIsWritten();
        for (Question question : Question.values()) {
            assertThat(noes.getOrDefault(question, 0)).as("no to %s", question).isGreaterThanOrEqualTo(ENOUGH);
            assertThat(yeses.getOrDefault(question, 0))
                    .as("yes to %s", question)
                    .isGreaterThanOrEqualTo(ENOUGH);
        }
        onTheWireIsWhatWasAdmitted();
    }

    /** What the loader would never let pass is refused by the gate, too, and cannot be approved. */
    private void whatCanNeverBeWritten(Path folder) throws IOException {
        List<WritePermit> never = List.of(mistyped(LIMIT), mistyped(ALIAS));
        try (AskedPlant other = new AskedPlant(folder, new ForgetfulDisk(Seed.value()), 1, never)) {
            for (int i = 0; i < ENOUGH; i++) {
                refused(other, with(legal(1), LIMIT), Question.ROLE);
                refused(other, with(legal(1), ALIAS), Question.PROTECTED);
            }
            assertThatThrownBy(() -> other.gate.approve(
                            "a person", Optional.empty(), Duration.ofSeconds(30), LockSupport::parkNanos))
                    .isInstanceOf(ApprovalDesk.CannotApproveException.class)
                    .hasMessageContaining("meets what is never written");
            assertThat(other.frames()).isEmpty();
        }
    }

    /** One unit does not answer any more, behind one is another controller, and one has spent its writes. */
    private void spoilTheWorld() {
        plant.device.pullCable(AWAY);
        plant.set(SWAPPED, AskedPlant.SERIAL, 9_999);
        AskedPlant.until(
                () -> plant.table.link(plant.site.controllers().get(AWAY - 1)).state() == ControllerLink.State.DOWN);
        AskedPlant.until(() -> plant.gate.desk().identitiesNow().containsValue("9999"));
        for (int spent = 0; spent < 2; spent++) {
            AskedPlant.until(() -> mayBeWritten(WORN));
            admitted(legal(WORN), WORN);
            untilAllIsWritten();
        }
        AskedPlant.until(() -> mayBeWritten(WORN) && mayBeWritten(AWAY) && mayBeWritten(SWAPPED));
        for (int i = 0; i < ENOUGH; i++) {
            refused(legal(WORN), Question.BUDGET);
            refused(legal(SWAPPED), Question.IDENTITY);
            refused(legal(AWAY), Question.ANSWERING);
        }
    }

    private void noRecordCanBeKept() {
        untilAllIsWritten();
        AskedPlant.until(() -> ready().isPresent());
        disk.fail(true);
        int first = ready().orElseThrow();
        // The first finds it out, and is not sent; it waits in its slot.
        assertThat(plant.gate.ask(legal(first))).isInstanceOf(Decision.Admitted.class);
        AskedPlant.until(() -> !plant.gate
                .status(AskedPlant.load(first))
                .map(PermitStatus::held)
                .orElse("")
                .isEmpty());
        int before = plant.frames().size();
        int others = 0;
        while (others < ENOUGH) {
            Optional<Integer> unit = ready().filter(one -> one != first);
            if (unit.isPresent()) {
                refused(legal(unit.get()), Question.RECORD);
                others++;
            }
        }
        assertThat(plant.frames()).hasSize(before);
        assertThat(plant.gate.ask(new Ask(AskedPlant.load(first), new Wanted.Nothing(), 8, STATION)))
                .isInstanceOf(Decision.Admitted.class);
        disk.fail(false);
    }

    private void untilAllIsWritten() {
        AskedPlant.until(() -> written.get() == toBeWritten || !surprises.isEmpty());
        assertThat(surprises).isEmpty();
    }

    private boolean isEnough() {
        return AT_ANY_TIME.stream().allMatch(question -> noes.getOrDefault(question, 0) >= ENOUGH)
                && yeses.getOrDefault(Question.RECORD, 0) >= ENOUGH;
    }

    private boolean mayBeWritten(int unit) {
        PermitStatus status = plant.gate.status(AskedPlant.load(unit)).orElseThrow();
        return status.untilNextWrite() == 0
                && (unit == AWAY
                        || plant.table
                                .reading(plant.point(AskedPlant.load(unit)))
                                .isGood());
    }

    /** A unit that may be written now. */
    private Optional<Integer> ready() {
        int from = dice.nextInt(LAST_SOUND);
        for (int i = 0; i < LAST_SOUND; i++) {
            int unit = 1 + (from + i) % LAST_SOUND;
            // In this order: what is under way yet may leave between two looks.
            if (written.get() == toBeWritten && mayBeWritten(unit)) {
                return Optional.of(unit);
            }
        }
        return Optional.empty();
    }

    private void one(Question mutant) {
        int unit = 1 + dice.nextInt(LAST_SOUND);
        Ask legal = legal(unit);
        switch (mutant) {
            case KNOWN_POINT ->
                refused(with(legal, new PointId(new Name("boiler-99"), new Name("load-demand"))), mutant);
            case PERMIT ->
                refused(
                        dice.nextBoolean()
                                ? new Ask(legal.point(), legal.wanted(), Ask.KEPT_SLOT, STATION)
                                : with(legal, id("serial")),
                        mutant);
            case SOURCE ->
                refused(
                        new Ask(
                                legal.point(),
                                legal.wanted(),
                                8,
                                dice.nextBoolean()
                                        ? new Source.Mqtt("nobody")
                                        : new Source.Bacnet(0x7F000002 + dice.nextInt(99), 47808, 0)),
                        mutant);
            case FRESH ->
                refused(
                        new Ask(
                                legal.point(),
                                legal.wanted(),
                                8,
                                STATION,
                                OptionalLong.of(plant.clock.ticks() - 1 - dice.nextInt(1_000_000)),
                                Optional.empty()),
                        mutant);
            case TYPE -> refused(with(legal, noNumber()), mutant);
            case RANGE ->
                refused(
                        with(legal, number(dice.nextBoolean() ? 900 + 1 + dice.nextInt(70_000) : dice.nextInt(200))),
                        mutant);
            case STEP ->
                ready().ifPresent(soon -> {
                    // Far from what is there, which is what its slot holds, if anything.
                    int holds = plant.register(soon, AskedPlant.LOAD);
                    int far = 101 + dice.nextInt(200);
                    refused(with(legal(soon), number(holds < 550 ? holds + far : holds - far)), mutant);
                });
            case INTERVAL ->
                ready().ifPresent(soon -> {
                    admitted(legal(soon), soon);
                    untilAllIsWritten();
                    if (!mayBeWritten(soon)) {
                        refused(legal(soon), mutant);
                    }
                });
            default -> throw new IllegalArgumentException(mutant.code());
        }
    }

    private static Ask with(Ask ask, PointId other) {
        return new Ask(other, ask.wanted(), ask.slot(), ask.source());
    }

    private static Ask with(Ask ask, Wanted other) {
        return new Ask(ask.point(), other, ask.slot(), ask.source());
    }

    private static Wanted number(int tenths) {
        return new Wanted.Number(BigDecimal.valueOf(tenths, 1));
    }

    private Wanted noNumber() {
        return switch (dice.nextInt(4)) {
            case 0 -> Wanted.Number.of(Double.NaN);
            case 1 -> Wanted.Number.of(Double.POSITIVE_INFINITY);
            case 2 -> Wanted.Number.of(Double.NEGATIVE_INFINITY);
            default -> new Wanted.NoNumber("\"thirty\"");
        };
    }

    /** Within a step of what is there, and something else. */
    private Ask legal(int unit) {
        int holds = plant.register(unit, AskedPlant.LOAD);
        int change = 1 + dice.nextInt(99);
        return new Ask(AskedPlant.load(unit), number(holds < 550 ? holds + change : holds - change), 8, STATION);
    }

    private void refused(Ask ask, Question by) {
        refused(plant, ask, by);
    }

    private void refused(AskedPlant of, Ask ask, Question by) {
        Decision decision = of.gate.ask(ask, fate -> {
            throw new IllegalStateException("a refused ask has no fate");
        });
        assertThat(decision)
                .isInstanceOfSatisfying(
                        Decision.Refused.class,
                        refused -> assertThat(refused.question())
                                .as(refused.sentence())
                                .isEqualTo(by));
        noes.merge(by, 1, Integer::sum);
        for (Question question : Question.values()) {
            if (question.compareTo(by) < 0) {
                yeses.merge(question, 1, Integer::sum);
            }
        }
    }

    private void admitted(Ask ask, int unit) {
        admitted.add(unit + " " + ask.wanted().text());
        BigDecimal wanted = ((Wanted.Number) ask.wanted()).value();
        Decision decision = plant.gate.ask(ask, fate -> {
            if (fate instanceof Fate.Written now && now.value().compareTo(wanted) == 0) {
                written.incrementAndGet();
            } else {
                surprises.add(ask + ": " + fate);
            }
        });
        assertThat(decision).isEqualTo(new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN));
        toBeWritten++;
        for (Question question : Question.values()) {
            yeses.merge(question, 1, Integer::sum);
        }
    }

    private void onTheWireIsWhatWasAdmitted() {
        List<WrittenFrame> frames = plant.frames().stream()
                .filter(frame -> valueOf(frame) != 200 || admitted.contains(frame.unit() + " 20.0"))
                .toList();
        assertThat(frames).hasSize(toBeWritten);
        for (WrittenFrame frame : frames) {
            byte[] bytes = frame.bytes();
            assertThat(bytes).as("a whole Modbus TCP frame of function 6").hasSize(12);
            assertThat(bytes[7]).isEqualTo((byte) 6);
            assertThat(bytes[8] << 8 | bytes[9] & 0xFF).isEqualTo(AskedPlant.LOAD);
            assertThat(admitted).contains(frame.unit() + " " + BigDecimal.valueOf(valueOf(frame), 1));
        }
    }

    private static int valueOf(WrittenFrame frame) {
        byte[] bytes = frame.bytes();
        return (bytes[10] & 0xFF) << 8 | bytes[11] & 0xFF;
    }
}
