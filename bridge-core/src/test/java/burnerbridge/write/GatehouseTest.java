package burnerbridge.write;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.decode.Decoder;
import burnerbridge.line.Outcome;
import burnerbridge.line.WriteTemplate;
import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.poll.LineErrand;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.UnitId;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Wanted;
import burnerbridge.write.audit.AuditKind;
import burnerbridge.write.audit.AuditRecord;
import burnerbridge.write.audit.AuditVerifier;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The gate as the rest of the bridge has it: opened, approved and withdrawn while lines run, ended and opened again. */
class GatehouseTest {
    private static final Duration PATIENCE = Duration.ofSeconds(10);
    private static final Decision TO_BE_WRITTEN = new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN);
    private static final Name OTHER_LINE = new Name("tower");

    private final HandClock clock = new HandClock();
    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
    private final RecordingUnit unit = new RecordingUnit(clock);
    private final List<WriteEvent> events = new ArrayList<>();
    private final List<Long> pauses = new ArrayList<>();

    /** A gatehouse with its line's thread, stepped by hand. */
    private final class House {
        final Site site;
        final ValueTable table;
        final Gatehouse gatehouse;
        int wakes;
        private final LineErrand writer;

        House(Site site) throws IOException {
            this.site = site;
            this.table = new ValueTable(site.points(), site.owners());
            this.gatehouse = Gatehouse.open(site, disk, table, clock, events::add);
            this.writer = gatehouse.writer(GateRig.LINE, unit.line(), () -> wakes++);
            unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0x5331);
            unit.set(2, RegisterTable.HOLDING_REGISTER, 100, 0x5332);
            for (ControllerDefinition controller : site.controllers()) {
                table.publish(controller, ControllerLink.up(clock.now()));
            }
            poll();
        }

        void poll() {
            for (SitePoint point : site.points()) {
                if (unit.read(LineWriter.request(point)) instanceof Outcome.Answered answered) {
                    table.publish(
                            point,
                            Decoder.decode(
                                    point.definition(), answered.data(), answered.askedAt(), table.reading(point)));
                }
            }
            gatehouse.step(clock.ticks());
        }

        void forward(Duration time) {
            long end = clock.ticks() + time.toNanos();
            while (end - clock.ticks() > 0) {
                clock.forward(Duration.ofMillis(200));
                gatehouse.step(clock.ticks());
                writer.run();
            }
        }

        void approve() throws Exception {
            assertThat(gatehouse.approve(
                            "a person", Optional.of(gatehouse.desk().items().hash()), PATIENCE, this::pause))
                    .isTrue();
            forward(GateRig.INTERVAL);
        }

        void pause(long nanos) {
            pauses.add(nanos);
            forward(Duration.ofNanos(nanos));
        }

        Decision ask(PointId point, String value) {
            return gatehouse.ask(new Ask(point, new Wanted.Number(new BigDecimal(value)), 8, GateRig.STATION));
        }
    }

    @BeforeEach
    void aLoadStands() {
        unit.set(1, RegisterTable.HOLDING_REGISTER, 44, 300);
    }

    private House usual() throws IOException {
        return new House(GateRig.site(GateRig.usualPermits()));
    }

    private int load() {
        return unit.get(1, RegisterTable.HOLDING_REGISTER, 44);
    }

    private List<String> kinds() throws IOException {
        List<String> kinds = new ArrayList<>();
        new AuditVerifier(disk).verify(record -> kinds.add(record.kind()));
        return kinds;
    }

    private AuditRecord newest(AuditKind kind) throws IOException {
        List<AuditRecord> records = new ArrayList<>();
        assertThat(new AuditVerifier(disk).verify(records::add).isWhole()).isTrue();
        return records.stream()
                .filter(record -> record.kind().equals(kind.word()))
                .reduce((one, other) -> other)
                .orElseThrow();
    }

    private static Question refusal(Decision decision) {
        assertThat(decision).isInstanceOf(Decision.Refused.class);
        return ((Decision.Refused) decision).question();
    }

    @Test
    void beforeAnybodyHasApprovedTheGateIsShutAndTheAuditSaysWhy() throws Exception {
        House house = usual();
        assertThat(house.gatehouse.isApproved()).isFalse();
        assertThat(house.gatehouse.whyNotApproved()).isEqualTo("no person has approved it yet (burner-bridge permits)");
        assertThat(house.gatehouse.isEmpty()).isFalse();
        house.forward(GateRig.INTERVAL);
        assertThat(refusal(house.ask(GateRig.LOAD, "31"))).isEqualTo(Question.APPROVED);
        assertThat(newest(AuditKind.LAPSED).print()).contains("no person has approved it yet");
        assertThat(unit.frames).isEmpty();
    }

    @Test
    void whatIsApprovedMayBeAskedForAndWakesTheLine() throws Exception {
        House house = usual();
        house.approve();
        assertThat(house.gatehouse.isApproved()).isTrue();
        assertThat(house.gatehouse.whyNotApproved()).isEmpty();
        int before = house.wakes;
        assertThat(house.ask(GateRig.LOAD, "31")).isEqualTo(TO_BE_WRITTEN);
        assertThat(house.wakes).isEqualTo(before + 1);
        house.forward(Duration.ofSeconds(1));
        assertThat(load()).isEqualTo(310);
        assertThat(events).extracting(WriteEvent::kind).containsExactly(WriteEvent.Kind.WRITTEN);
        assertThat(house.gatehouse.statuses()).hasSize(4);
    }

    @Test
    void afterARestartTheGateIsOpenForWhatWasApproved() throws Exception {
        usual().approve();
        House house = usual();
        assertThat(house.gatehouse.isApproved()).isTrue();
        assertThat(newest(AuditKind.STARTED).print()).contains("the gate is open for what was approved");
        house.forward(GateRig.INTERVAL);
        assertThat(house.ask(GateRig.LOAD, "31")).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void aDiskThatTakesNothingKeepsTheGateFromNothingButItsRecord() throws Exception {
        usual().approve();
        disk.fill();
        House house = usual();
        assertThat(house.gatehouse.isApproved()).isTrue();
        assertThat(kinds()).doesNotContain(AuditKind.STARTED.word());
    }

    @Test
    void toApproveAnewWhatStandsIsTakenBackFirst() throws Exception {
        House house = usual();
        house.approve();
        house.ask(GateRig.LOAD, "31");
        house.forward(Duration.ofSeconds(1));
        pauses.clear();
        house.approve();
        assertThat(load()).isEqualTo(200);
        assertThat(pauses).isNotEmpty().containsOnly(Duration.ofMillis(20).toNanos());
        assertThat(house.ask(GateRig.LOAD, "21")).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void whereNothingStandsNobodyWaits() throws Exception {
        House house = usual();
        house.approve();
        assertThat(pauses).isEmpty();
    }

    @Test
    void whereWhatStandsCannotBeTakenBackInTimeNothingIsApprovedAnewAndAsksAreTakenAgain() throws Exception {
        House house = usual();
        house.approve();
        house.ask(GateRig.LOAD, "31");
        house.forward(Duration.ofSeconds(1));
        unit.manner = RecordingUnit.Manner.IGNORES_AND_IS_SILENT;
        long records = kinds().stream()
                .filter(kind -> kind.equals(AuditKind.APPROVAL.word()))
                .count();
        long before = clock.ticks();
        assertThat(house.gatehouse.approve("a person", Optional.empty(), PATIENCE, house::pause))
                .isFalse();
        assertThat(clock.ticks() - before)
                .isBetween(PATIENCE.toNanos(), PATIENCE.plusSeconds(1).toNanos());
        assertThat(kinds().stream().filter(kind -> kind.equals(AuditKind.APPROVAL.word())))
                .hasSize((int) records);
        unit.manner = RecordingUnit.Manner.WELL;
        house.forward(GateRig.INTERVAL);
        assertThat(load()).isEqualTo(200);
        house.forward(GateRig.INTERVAL);
        assertThat(house.ask(GateRig.LOAD, "21")).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void whatTheDeskDoesNotApproveLeavesTheGateAsItWas() throws Exception {
        House house = usual();
        house.approve();
        assertThatThrownBy(
                        () -> house.gatehouse.approve("a person", Optional.of("0".repeat(64)), PATIENCE, house::pause))
                .isInstanceOf(ApprovalDesk.CannotApproveException.class);
        assertThat(house.gatehouse.isApproved()).isTrue();
        assertThat(house.ask(GateRig.LOAD, "31")).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void whatAnotherWriterHadPutToSleepWakesWhenAPersonApprovesAndStaysAwakeAfterARestart() throws Exception {
        usual().approve();
        House house = usual();
        unit.set(1, RegisterTable.HOLDING_REGISTER, 44, 700);
        house.poll();
        house.forward(Duration.ofSeconds(1));
        assertThat(refusal(house.ask(GateRig.LOAD, "69"))).isEqualTo(Question.APPROVED);
        assertThat(house.gatehouse.statuses().get(0).asleep()).contains("another writer");
        house.approve();
        assertThat(house.ask(GateRig.LOAD, "69")).isEqualTo(TO_BE_WRITTEN);
        assertThat(usual().gatehouse.statuses().get(0).asleep()).isEmpty();
    }

    @Test
    void whatIsWithdrawnIsTakenBackAndTheGateIsShut() throws Exception {
        House house = usual();
        house.approve();
        house.ask(GateRig.LOAD, "31");
        house.forward(Duration.ofSeconds(1));
        assertThat(house.gatehouse.withdraw("another person", PATIENCE, house::pause))
                .isTrue();
        assertThat(load()).isEqualTo(200);
        assertThat(house.gatehouse.isApproved()).isFalse();
        assertThat(house.gatehouse.whyNotApproved()).isEqualTo("another person has withdrawn the approval");
        assertThat(refusal(house.ask(GateRig.LOAD, "21"))).isEqualTo(Question.APPROVED);
        assertThat(newest(AuditKind.WITHDRAWAL).print()).contains("another person");
    }

    @Test
    void theApprovalIsWithdrawnEvenWhereWhatStandsCannotBeTakenBack() throws Exception {
        House house = usual();
        house.approve();
        house.ask(GateRig.LOAD, "31");
        house.forward(Duration.ofSeconds(1));
        unit.manner = RecordingUnit.Manner.IGNORES_AND_IS_SILENT;
        assertThat(house.gatehouse.withdraw("another person", PATIENCE, house::pause))
                .isFalse();
        assertThat(house.gatehouse.isApproved()).isFalse();
        assertThat(usual().gatehouse.isApproved()).isFalse();
    }

    @Test
    void whatWasTakenBackAtTheEndIsNotTakenBackOnceMoreAfterTheNextStart() throws Exception {
        House house = usual();
        house.approve();
        house.ask(GateRig.LOAD, "31");
        house.forward(Duration.ofSeconds(1));
        assertThat(house.gatehouse.end(PATIENCE, house::pause)).isTrue();
        house.gatehouse.close();
        assertThat(load()).isEqualTo(200);
        assertThat(newest(AuditKind.ENDED).print()).contains("the gate is closed");
        int frames = unit.frames.size();
        House next = usual();
        next.forward(GateRig.LEASE.plusMinutes(1));
        assertThat(unit.frames).hasSize(frames);
        assertThat(next.gatehouse.head().sequence()).isPositive();
    }

    @Test
    void whatCouldNotBeTakenBackAtTheEndIsAfterTheNextStart() throws Exception {
        House house = usual();
        house.approve();
        house.ask(GateRig.LOAD, "31");
        house.forward(Duration.ofSeconds(1));
        unit.manner = RecordingUnit.Manner.IGNORES_AND_IS_SILENT;
        assertThat(house.gatehouse.end(PATIENCE, house::pause)).isFalse();
        house.gatehouse.close();
        unit.manner = RecordingUnit.Manner.WELL;
        House next = usual();
        next.forward(GateRig.LEASE.plusMinutes(1));
        assertThat(load()).isEqualTo(200);
    }

    @Test
    void whatMayBeSentOverALineIsWhatIsPermittedThereAndAllOfItsUnitsIsGuarded() throws Exception {
        House house = usual();
        assertThat(house.gatehouse.templates(GateRig.LINE))
                .extracting(WriteTemplate::unit)
                .containsExactly(new UnitId(1), new UnitId(1), new UnitId(1), new UnitId(2));
        assertThat(house.gatehouse.templates(OTHER_LINE)).isEmpty();
        assertThat(house.gatehouse.guards(GateRig.LINE)).containsOnlyKeys(new UnitId(1), new UnitId(2));
        assertThat(house.gatehouse.guards(OTHER_LINE)).isEmpty();
    }

    @Test
    void aPermitThatMeetsWhatIsNeverWrittenHasNoTemplate() throws Exception {
        House house = new House(GateRig.mistyped());
        assertThat(house.gatehouse.templates(GateRig.LINE))
                .extracting(template -> template.range().first())
                .containsExactly(44, 16, 46, 44);
    }

    @Test
    void aSiteThatPermitsNothingHasAnEmptyGateAndAnEmptyAudit() throws Exception {
        House house = new House(GateRig.site(List.of()));
        assertThat(house.gatehouse.isEmpty()).isTrue();
        house.forward(Duration.ofSeconds(10));
        assertThat(house.gatehouse.statuses()).isEmpty();
        house.gatehouse.close();
        assertThat(kinds()).isEmpty();
    }

    /** What is protected now is kept for ever as soon as it is known of whom, without anybody's approval. */
    @Test
    void whatCanNeverBeWrittenIsKeptSoonAfterTheControllersHaveSaidWhoTheyAre() throws Exception {
        unit.answers = false;
        House house = usual();
        house.forward(Duration.ofSeconds(10));
        assertThat(disk.names("ratchet")).isEmpty();
        unit.answers = true;
        house.poll();
        house.forward(Duration.ofMillis(5200));
        assertThat(disk.names("ratchet")).isNotEmpty();
    }

    @Test
    void whatCanNeverBeWrittenIsTriedToBeKeptUntilItIs() throws Exception {
        unit.answers = false;
        House house = usual();
        disk.fail(true);
        unit.answers = true;
        house.poll();
        house.forward(Duration.ofSeconds(12));
        assertThat(disk.names("ratchet")).isEmpty();
        disk.fail(false);
        house.forward(Duration.ofSeconds(6));
        assertThat(disk.names("ratchet")).isNotEmpty();
    }
}
