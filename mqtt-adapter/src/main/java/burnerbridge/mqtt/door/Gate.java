package burnerbridge.mqtt.door;

import burnerbridge.site.PointId;
import burnerbridge.write.Gatehouse;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Source;
import java.util.Optional;

/** What this side knows of the write gate. Safe for any number of threads; nothing of it waits. */
public interface Gate {

    /** @see Gatehouse#ask(Ask, Fate.Follower) */
    Decision ask(Ask ask, Fate.Follower follower);

    /** @see Gatehouse#refused */
    void refused(PointId point, Source source, String wanted, String code, String sentence);

    /** @see Gatehouse#status */
    Optional<PermitStatus> status(PointId point);

    static Gate of(Gatehouse house) {
        return new Gate() {
            @Override
            public Decision ask(Ask ask, Fate.Follower follower) {
                return house.ask(ask, follower);
            }

            @Override
            public void refused(PointId point, Source source, String wanted, String code, String sentence) {
                house.refused(point, source, wanted, code, sentence);
            }

            @Override
            public Optional<PermitStatus> status(PointId point) {
                return house.status(point);
            }
        };
    }
}
