package burnerbridge.write;

import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.site.PointId;
import burnerbridge.write.audit.AuditTrail;
import burnerbridge.write.memory.GateMemory;
import burnerbridge.write.memory.PointMemory;
import burnerbridge.write.memory.Ratchet;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A disk, and what a gate has kept on it, over restarts. */
final class Kept {
    final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());

    /** So many writes of a point were made before. */
    void spend(PointId point, long writes) {
        try {
            GateMemory.anew(disk, 0, Map.of(point, new PointMemory(writes, false, Optional.empty(), Optional.empty())));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    GateKeeping open(HandClock clock, List<PointId> permitted) {
        try {
            AuditTrail audit = AuditTrail.open(disk, clock);
            return new GateKeeping(
                    audit,
                    GateMemory.open(disk, audit.memory()),
                    Ratchet.open(disk, audit.ratchet()),
                    permitted,
                    clock);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
