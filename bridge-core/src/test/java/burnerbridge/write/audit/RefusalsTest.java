package burnerbridge.write.audit;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RefusalsTest {
    private static final int MOST = 60;

    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
    private final HandClock clock = new HandClock();

    private static AuditEntry refused(String source, String point, String code) {
        return AuditEntry.of(AuditKind.REFUSED)
                .from(source)
                .at(new PointId(new Name("boiler-1"), new Name(point)))
                .decided(code, "the sentence of " + code);
    }

    private List<AuditRecord> records() throws IOException {
        List<AuditRecord> records = new ArrayList<>();
        assertThat(new AuditVerifier(disk).verify(records::add).findings()).isEmpty();
        return records;
    }

    /** Refusals that the records tell of. */
    private static long told(List<AuditRecord> records) {
        return records.stream()
                .mapToLong(r -> switch (r.kind()) {
                    case "refused" -> 1;
                    case "refusals" -> Long.parseLong(r.details().get("count"));
                    default -> 0;
                })
                .sum();
    }

    private static String text(AuditRecord record) {
        return String.join(
                " ",
                record.kind(),
                record.details().getOrDefault("source", "-"),
                record.details().getOrDefault("point", "-"),
                record.details().getOrDefault("code", "-"),
                record.details().getOrDefault("count", "1"));
    }

    @Test
    void theFirstOfEachKindIsToldAtOnceAndTheOthersByACountAMinute() throws IOException {
        AuditTrail trail = AuditTrail.open(disk, clock);
        for (int i = 0; i < 100; i++) {
            trail.recordRefusal(refused("a", "load-demand", "range"));
        }
        trail.recordRefusal(refused("b", "load-demand", "range"));
        trail.recordRefusal(refused("a", "enable", "range"));
        trail.recordRefusal(refused("a", "load-demand", "step"));
        assertThat(records()).hasSize(4);

        clock.forward(Duration.ofSeconds(59));
        long due = trail.step(clock.ticks());
        assertThat(due - clock.ticks()).isEqualTo(Duration.ofSeconds(1).toNanos());
        assertThat(records()).hasSize(4);
        clock.forward(Duration.ofSeconds(1));
        trail.step(clock.ticks());
        assertThat(records().stream().map(RefusalsTest::text))
                .containsExactly(
                        "refused a boiler-1.load-demand range 1",
                        "refused b boiler-1.load-demand range 1",
                        "refused a boiler-1.enable range 1",
                        "refused a boiler-1.load-demand step 1",
                        "refusals a boiler-1.load-demand range 99");
    }

    @Test
    void whoGoesOnIsCountedAndWhoWasQuietForAMinuteIsToldAtOnceAgain() throws IOException {
        AuditTrail trail = AuditTrail.open(disk, clock);
        for (int minute = 0; minute < 3; minute++) {
            trail.recordRefusal(refused("steady", "enable", "range"));
            trail.recordRefusal(refused("steady", "enable", "range"));
            if (minute != 1) {
                trail.recordRefusal(refused("now-and-then", "enable", "range"));
            }
            clock.forward(Duration.ofMinutes(1));
            trail.step(clock.ticks());
        }
        assertThat(records().stream().map(RefusalsTest::text))
                .containsExactly(
                        "refused steady boiler-1.enable range 1",
                        "refused now-and-then boiler-1.enable range 1",
                        "refusals steady boiler-1.enable range 1",
                        "refusals steady boiler-1.enable range 2",
                        "refused now-and-then boiler-1.enable range 1",
                        "refusals steady boiler-1.enable range 2");
    }

    @Test
    void aFloodFromAMillionSourcesIsBoundedAndEveryRefusalIsCounted() throws IOException {
        AuditTrail trail = AuditTrail.open(disk, clock, new AuditRules(1L << 30, 2, MOST));
        long before = 0;
        for (int minute = 0; minute < 10; minute++) {
            for (int i = 0; i < 100_000; i++) {
                trail.recordRefusal(refused("peer-" + minute + "-" + i, "enable", "range"));
            }
            clock.forward(Duration.ofMinutes(1));
            trail.step(clock.ticks());
            long now = records().size();
            assertThat(now - before).as("records of minute %d", minute).isLessThanOrEqualTo(MOST + 1);
            before = now;
        }
        trail.close();
        assertThat(told(records())).isEqualTo(1_000_000);
    }

    @Test
    void noRefusalIsLostFromTheCountWhateverComesWhen() throws IOException {
        Random dice = new Random(Seed.value());
        AuditTrail trail = AuditTrail.open(disk, clock, new AuditRules(1L << 20, 200, 8));
        int refusals = 0;
        for (int i = 0; i < 20_000; i++) {
            trail.recordRefusal(refused("peer-" + (int) Math.abs(dice.nextGaussian() * 20), "enable", "range"));
            refusals++;
            if (dice.nextInt(50) == 0) {
                clock.forward(Duration.ofSeconds(dice.nextInt(90)));
                trail.step(clock.ticks());
            }
            if (dice.nextInt(500) == 0) {
                disk.fail(dice.nextBoolean());
            }
        }
        disk.fail(false);
        trail.close();
        assertThat(told(records())).isEqualTo(refusals);
    }

    @Test
    void onAFullDiskRefusalsAreCountedUntilThereIsRoom() throws IOException {
        AuditTrail trail = AuditTrail.open(disk, clock);
        disk.fill();
        for (int i = 0; i < 10; i++) {
            trail.recordRefusal(refused("a", "enable", "range"));
            trail.recordRefusal(refused("b", "enable", "range"));
        }
        clock.forward(Duration.ofMinutes(1));
        trail.step(clock.ticks());
        assertThat(records()).isEmpty();
        assertThat(trail.trouble()).isPresent();
        disk.empty();
        clock.forward(Duration.ofMinutes(1));
        trail.step(clock.ticks());
        assertThat(told(records())).isEqualTo(20);
        assertThat(records()).hasSize(1);
    }
}
