package burnerbridge.config;

import burnerbridge.config.Problems.Place;
import burnerbridge.config.SiteFile.ControllerEntry;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** Tells of intervals that cannot be what they say, whatever else is read on the line. */
final class PaceCheck {
    private final SiteFile file;
    private final List<ControllerDefinition> controllers;
    private final Problems problems;

    PaceCheck(SiteFile file, List<ControllerDefinition> controllers, Problems problems) {
        this.file = file;
        this.controllers = controllers;
        this.problems = problems;
    }

    void run() {
        Map<Name, Place> places =
                file.controllers().stream().collect(Collectors.toMap(ControllerEntry::name, ControllerEntry::place));
        for (ControllerDefinition controller : controllers) {
            Place place = places.getOrDefault(controller.name(), Place.wholeFile(SiteFile.NAME));
            Optional<PointDefinition> fastest = controller.type().points().stream()
                    .filter(PointDefinition::isPolled)
                    .min(Comparator.comparing(PointDefinition::every));
            if (fastest.isEmpty() && !controller.type().points().isEmpty()) {
                problems.warning(
                        place,
                        "controllers." + controller.name() + ": no point of type "
                                + controller.type().name() + " is read, so this controller shows nothing");
            }
            fastest.ifPresent(point -> checkPause(controller, place, point));
        }
        file.lines().forEach(this::checkReplyTimeout);
    }

    private void checkPause(ControllerDefinition controller, Place place, PointDefinition point) {
        Duration pause = controller.type().rules().pause();
        if (pause.compareTo(point.every()) >= 0) {
            problems.warning(
                    place,
                    "controllers." + controller.name() + ": type "
                            + controller.type().name() + " asks for a pause of " + Durations.text(pause)
                            + " between requests, and " + point.name() + " cannot be read every "
                            + Durations.text(point.every()));
        }
    }

    private void checkReplyTimeout(LineDefinition line) {
        controllers.stream()
                .filter(controller -> controller.line().equals(line.name()))
                .flatMap(controller -> controller.type().points().stream())
                .filter(PointDefinition::isPolled)
                .filter(point -> point.every().compareTo(line.replyTimeout()) < 0)
                .min(Comparator.comparing(PointDefinition::every))
                .ifPresent(point -> problems.note(
                        Place.wholeFile(SiteFile.NAME),
                        "lines." + line.name() + ".reply-timeout: " + Durations.text(line.replyTimeout())
                                + " is longer than the interval of " + point.name() + ", "
                                + Durations.text(point.every())
                                + ": one reply that does not come makes it miss its next reading"));
    }
}
