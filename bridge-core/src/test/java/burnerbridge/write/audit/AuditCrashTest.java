package burnerbridge.write.audit;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The power goes at every operation of a life of the chain: start, records, refusals, new files, old files. */
class AuditCrashTest {
    private static final AuditRules RULES = new AuditRules(1800, 3, 60);
    private static final int SEEDS = 8;

    private static AuditEntry entry(AuditKind kind, int i) {
        return AuditEntry.of(kind)
                .from("bacnet 192.0.2.7:47808")
                .asked(Integer.toString(i))
                .decided("range", "no");
    }

    /** @param forced is given what the chain has promised to have */
    private static void live(ForgetfulDisk disk, List<AuditHead> forced) throws IOException {
        HandClock clock = new HandClock();
        AuditTrail trail = AuditTrail.open(disk, clock, RULES);
        forced.add(trail.head());
        for (int i = 0; i < 14; i++) {
            trail.record(entry(AuditKind.LEASE, i));
            trail.recordRefusal(entry(AuditKind.REFUSED, i));
            forced.add(trail.recordForced(entry(AuditKind.INTENT, i)));
            trail.recordAtAnyCost(entry(AuditKind.OUTCOME, i));
            forced.add(trail.head());
            clock.forward(java.time.Duration.ofSeconds(40));
            trail.step(clock.ticks());
        }
        trail.close();
        forced.add(trail.head());
    }

    @Test
    void whatWasForcedIsThereAndTheChainIsWholeWhereverThePowerWent() throws IOException {
        ForgetfulDisk counted = new ForgetfulDisk(Seed.value());
        live(counted, new ArrayList<>());
        long operations = counted.operations();
        assertThat(operations).isGreaterThan(100);
        assertThat(counted.journal()).anyMatch(said -> said.startsWith("delete audit-"));

        for (int seed = 0; seed < SEEDS; seed++) {
            for (long at = 1; at <= operations; at++) {
                ForgetfulDisk disk = new ForgetfulDisk(Seed.value() + seed * 10_000L + at);
                disk.crashAt(at);
                List<AuditHead> forced = new ArrayList<>();
                try {
                    live(disk, forced);
                } catch (ForgetfulDisk.PowerCut e) {
                    // As it was told.
                }
                disk.crash();
                requireWhole(disk, forced, "power cut at operation " + at + ", seed " + seed);
            }
        }
    }

    private static void requireWhole(ForgetfulDisk disk, List<AuditHead> forced, String where) throws IOException {
        AuditHead promised = forced.isEmpty() ? AuditHead.START : forced.get(forced.size() - 1);
        AuditTrail again = AuditTrail.open(disk, new HandClock(), RULES);
        assertThat(again.damage()).as(where).isEmpty();
        assertThat(again.head().sequence()).as(where).isGreaterThanOrEqualTo(promised.sequence());
        again.recordForced(entry(AuditKind.STARTED, 0));
        AuditVerifier verifier = new AuditVerifier(disk).against(again.head());
        if (promised.sequence() > 0) {
            verifier.against(promised);
        }
        assertThat(verifier.verify().findings()).as(where).isEmpty();
        assertThat(disk.forced().files().keySet()).as(where).isNotEmpty();
        assertThat(new AuditVerifier(disk.forced())
                        .against(again.head())
                        .verify()
                        .findings())
                .as(where)
                .isEmpty();
    }

    /** Power that goes again and again, at the worst moments of the start too. */
    @Test
    void aBridgeThatLosesPowerAllTheTimeKeepsOneChain() throws IOException {
        ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
        List<AuditHead> forced = new ArrayList<>();
        for (int life = 0; life < 300; life++) {
            disk.crashAt(1 + life % 37);
            try {
                live(disk, forced);
            } catch (ForgetfulDisk.PowerCut e) {
                // And again.
            }
            disk.crash();
        }
        requireWhole(disk, forced, "after all of them");
    }
}
