package burnerbridge.bacnet.door;

import burnerbridge.site.PointId;
import burnerbridge.write.Gatehouse;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import java.util.Optional;

/** The write gate as this side uses it. Safe for any number of threads. */
public interface Gate {

    /** Decides at once. */
    Decision ask(Ask ask);

    /** How a permit stands; empty where nothing is known of it. */
    Optional<PermitStatus> status(PointId point);

    /** Whether a person has approved what may be written. */
    boolean isApproved();

    /** @param watcher told of what changes; it must not wait, and must not ask the gate */
    void watch(PermitStatus.Watcher watcher);

    static Gate of(Gatehouse house) {
        return new Gate() {
            @Override
            public Decision ask(Ask ask) {
                return house.ask(ask);
            }

            @Override
            public Optional<PermitStatus> status(PointId point) {
                return house.status(point);
            }

            @Override
            public boolean isApproved() {
                return house.isApproved();
            }

            @Override
            public void watch(PermitStatus.Watcher watcher) {
                house.watch(watcher);
            }
        };
    }

    /** Where there is no gate: nothing is ever admitted. */
    static Gate closed() {
        return new Gate() {
            @Override
            public Decision ask(Ask ask) {
                return new Decision.Refused(Question.APPROVED, "the write gate cannot be had");
            }

            @Override
            public Optional<PermitStatus> status(PointId point) {
                return Optional.empty();
            }

            @Override
            public boolean isApproved() {
                return false;
            }

            @Override
            public void watch(PermitStatus.Watcher watcher) {}
        };
    }
}
