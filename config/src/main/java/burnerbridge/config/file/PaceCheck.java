package burnerbridge.config.file;

import burnerbridge.config.file.SiteFile.ControllerEntry;
import burnerbridge.config.problem.Durations;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Tells of controllers that show nothing, and of intervals that one missing reply is too long for. */
public final class PaceCheck {
    private final SiteFile file;
    private final List<ControllerDefinition> controllers;
    private final Problems problems;

    public PaceCheck(SiteFile file, List<ControllerDefinition> controllers, Problems problems) {
        this.file = file;
        this.controllers = controllers;
        this.problems = problems;
    }

    public void run() {
        Map<Name, Place> places =
                file.controllers().stream().collect(Collectors.toMap(ControllerEntry::name, ControllerEntry::place));
        for (ControllerDefinition controller : controllers) {
            Place place = places.getOrDefault(controller.name(), Place.wholeFile(SiteFile.NAME));
            List<PointDefinition> points = controller.type().points();
            if (!points.isEmpty() && points.stream().noneMatch(PointDefinition::isPolled)) {
                problems.warning(
                        place,
                        "controllers." + controller.name() + ": no point of type "
                                + controller.type().name() + " is read, so this controller shows nothing");
            }
        }
        file.lines().forEach(this::checkReplyTimeout);
    }

    private void checkReplyTimeout(LineDefinition line) {
        controllers.stream()
                .filter(controller -> controller.isOn(line.name()))
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
