package burnerbridge.write;

import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.decode.Decoder;
import burnerbridge.line.Outcome;
import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.poll.LineErrand;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.Storage;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Wanted;
import burnerbridge.write.audit.AuditKind;
import burnerbridge.write.audit.AuditVerifier;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A person approves on a bridge that runs, whatever stands in the controllers then. */
class ReapprovalTest {
    private static final Duration PATIENCE = Duration.ofSeconds(6);

    private final HandClock clock = new HandClock();
    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
    private final RecordingUnit unit = new RecordingUnit(clock);
    private final WritePermit permit = GateRig.load(LOAD);

    @SuppressWarnings("NullAway.Init")
    private Site site;

    @SuppressWarnings("NullAway.Init")
    private ValueTable table;

    @SuppressWarnings("NullAway.Init")
    private Gatehouse house;

    @SuppressWarnings("NullAway.Init")
    private LineErrand writer;

    @BeforeEach
    void aDemandStands() throws Exception {
        isNow(1, 0x5331);
        isNow(2, 0x5332);
        unit.set(1, RegisterTable.HOLDING_REGISTER, 44, 300);
        start(GateRig.site(List.of(permit)));
        assertThat(approve()).isTrue();
        forward(GateRig.INTERVAL);
        assertThat(ask("40")).isEqualTo(new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN));
        forward(Duration.ofSeconds(1));
        assertThat(load()).isEqualTo(400);
    }

    private void isNow(int number, int serial) {
        unit.set(number, RegisterTable.HOLDING_REGISTER, 100, serial);
    }

    /** A bridge that ran before has ended without a word. */
    private void start(Site now) throws IOException {
        site = now;
        table = new ValueTable(site.points(), site.owners());
        house = Gatehouse.open(site, disk, table, clock, event -> {});
        writer = house.writer(GateRig.LINE, unit.line(), () -> {});
        for (ControllerDefinition controller : site.controllers()) {
            table.publish(controller, ControllerLink.up(clock.now()));
        }
        poll();
    }

    private void poll() {
        for (SitePoint point : site.points()) {
            if (unit.read(LineWriter.request(point)) instanceof Outcome.Answered answered) {
                table.publish(
                        point,
                        Decoder.decode(point.definition(), answered.data(), answered.askedAt(), table.reading(point)));
            }
        }
    }

    private Decision ask(String value) {
        return house.ask(new Ask(LOAD, new Wanted.Number(new BigDecimal(value)), 8, GateRig.STATION));
    }

    private int load() {
        return unit.get(1, RegisterTable.HOLDING_REGISTER, 44);
    }

    private boolean approve() throws Exception {
        return house.approve("a person", Optional.empty(), PATIENCE, this::pause);
    }

    private void pause(long nanos) {
        clock.forward(Duration.ofNanos(nanos));
        house.step(clock.ticks());
        OptionalLong ready = writer.readyAt(clock.ticks());
        if (ready.isPresent() && ready.getAsLong() - clock.ticks() <= 0) {
            writer.run();
        }
    }

    private void forward(Duration time) {
        long end = clock.ticks() + time.toNanos();
        while (end - clock.ticks() > 0) {
            pause(Duration.ofMillis(200).toNanos());
        }
    }

    private Site withAnotherStorage() {
        return GateRig.site(
                List.of(new WritePermit(permit.point(), permit.purpose(), permit.function(), Storage.VOLATILE, "")));
    }

    @Test
    void whatStandsSinceBeforeTheApprovalLapsedIsTakenBackUnderTheNewOne() throws Exception {
        start(withAnotherStorage());
        assertThat(house.isApproved()).isFalse();
        forward(GateRig.LEASE.plusMinutes(1));
        assertThat(load()).as("nothing is approved").isEqualTo(400);

        assertThat(approve()).isTrue();

        forward(Duration.ofMinutes(2));
        assertThat(load()).isEqualTo(200);
    }

    @Test
    void aControllerThatWasSwappedWhileADemandStoodCanBeApproved() throws Exception {
        isNow(1, 0x5339);
        poll();
        forward(GateRig.LEASE.plusMinutes(1));
        assertThat(load()).as("another controller").isEqualTo(400);

        assertThat(approve()).isTrue();

        forward(Duration.ofMinutes(2));
        assertThat(load()).isEqualTo(200);
    }

    @Test
    void whatCannotBeTakenBackWithoutApprovalIsToldWhereItIsWithdrawnOrTheBridgeEnds() throws Exception {
        start(withAnotherStorage());
        assertThat(house.end(PATIENCE, this::pause)).isFalse();
        assertThat(house.withdraw("a person", PATIENCE, this::pause)).isFalse();
    }

    @Test
    void anApprovalThatIsUnderWayWhenTheBridgeEndsOpensNothingAgain() throws Exception {
        boolean[] ended = new boolean[1];
        house.approve("a person", Optional.empty(), PATIENCE, nanos -> {
            pause(nanos);
            if (!ended[0]) {
                ended[0] = true;
                house.end(PATIENCE, this::pause);
            }
        });
        assertThat(ended[0]).isTrue();
        forward(GateRig.INTERVAL.plusSeconds(1));
        assertThat(ask("30")).isInstanceOf(Decision.Refused.class);
        assertThat(load()).isEqualTo(200);
    }

    @Test
    void aDemandWhosePermitIsGoneIsToldAtTheStart() throws Exception {
        start(GateRig.site(List.of()));
        List<String> lapsed = new ArrayList<>();
        new AuditVerifier(disk).verify(record -> {
            if (record.kind().equals(AuditKind.LAPSED.word())) {
                lapsed.add(record.details().getOrDefault("sentence", ""));
            }
        });
        assertThat(lapsed).last().asString().contains("what a demand left in boiler-1.load-demand stays there");
    }

    @Test
    void whileAControllerIsAwayNothingIsApprovedThatLeavesADemandBehind() throws Exception {
        unit.answers = false;
        assertThat(approve()).isFalse();
        unit.answers = true;
        assertThat(approve()).isTrue();
        assertThat(load()).isEqualTo(200);
    }
}
