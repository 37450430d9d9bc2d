package burnerbridge.write;

import burnerbridge.model.HandClock;
import burnerbridge.site.PointId;
import burnerbridge.write.audit.AuditTrail;
import burnerbridge.write.memory.GateMemory;
import burnerbridge.write.memory.Ratchet;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;

/** A disk, and what a gate has kept on it, over restarts. */
final class Kept {
    final ForgetfulDisk disk = new ForgetfulDisk();

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
