package burnerbridge.write;

import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/** What is wrong with the permits of a gate right now. */
final class GateTroubles {
    private static final String ABOUT = "write permits";

    private GateTroubles() {}

    /**
     * @param notApproved why nothing is approved; empty where it is
     * @param record why no record of a write can be kept; empty where it can
     */
    static void tell(
            List<PermitStatus> statuses,
            Optional<String> notApproved,
            Optional<String> record,
            Consumer<Trouble> troubles) {
        record.ifPresent(why -> troubles.accept(new Trouble(
                Place.BRIDGE,
                ABOUT,
                "nothing is written but what silence asks for, since no record can be kept: " + why,
                "the room and the rights of the state folder",
                null,
                Weight.DEGRADED)));
        if (notApproved.isPresent()) {
            troubles.accept(new Trouble(
                    Place.SITE,
                    ABOUT,
                    "nothing is written: " + notApproved.get(),
                    "'burner-bridge permits SITE', with which a person on the box approves",
                    null,
                    Weight.DEGRADED));
            return;
        }
        statuses.forEach(status -> tell(status, troubles));
    }

    private static void tell(PermitStatus status, Consumer<Trouble> troubles) {
        String about = "write permit " + status.point();
        if (!status.asleep().isEmpty()) {
            troubles.accept(new Trouble(
                    Place.SITE,
                    about,
                    "sleeps: " + status.asleep(),
                    "who else writes to this controller, before it is approved again",
                    null,
                    Weight.DEGRADED));
        } else if (!status.failed().isEmpty()) {
            troubles.accept(new Trouble(
                    Place.BURNER,
                    about,
                    "the last write did not do what it should: " + status.failed(),
                    "whether the controller takes it as things stand",
                    null,
                    Weight.DEGRADED));
        } else if (status.silenceOwed()) {
            troubles.accept(new Trouble(
                    Place.BURNER,
                    about,
                    "its value for silence is not there yet",
                    "whether the controller answers and takes it",
                    null,
                    Weight.DEGRADED));
        }
    }
}
