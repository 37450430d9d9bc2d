package burnerbridge.config.file;

import burnerbridge.config.file.SiteFile.GroupEntry;
import burnerbridge.config.meaning.MeaningCell;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.GroupCount;
import burnerbridge.site.PointDefinition;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Makes groups of the controllers that they name, each with the counts that all of its members can tell. */
public final class Groups {
    private final SiteFile file;
    private final List<ControllerDefinition> controllers;
    private final Problems problems;

    public Groups(SiteFile file, List<ControllerDefinition> controllers, Problems problems) {
        this.file = file;
        this.controllers = controllers;
        this.problems = problems;
    }

    public List<ControllerDefinition> make() {
        List<ControllerDefinition> groups = new ArrayList<>();
        for (GroupEntry entry : file.groups()) {
            group(entry, controllers.size() + groups.size()).ifPresent(groups::add);
        }
        return groups;
    }

    /** Empty where a member is wrong and told as such, or no count is left. */
    private Optional<ControllerDefinition> group(GroupEntry entry, int ordinal) {
        List<ControllerDefinition> members = new ArrayList<>();
        for (YamlMap.Item item : entry.members()) {
            controllers.stream()
                    .filter(controller -> controller.name().text().equals(item.text()))
                    .forEach(members::add);
        }
        if (members.size() < entry.members().size()
                || members.stream().anyMatch(m -> m.type().points().isEmpty())) {
            return Optional.empty();
        }
        List<PointDefinition> points = new ArrayList<>();
        for (GroupCount count : GroupCount.values()) {
            if (isTold(entry, members, count)) {
                points.add(count.point(members));
            }
        }
        if (points.isEmpty()) {
            problems.error(
                    entry.place(),
                    "groups." + entry.name() + ": counts nothing, since its controllers tell none of it");
            return Optional.empty();
        }
        return Optional.of(new ControllerDefinition(
                ordinal,
                entry.name(),
                new ControllerDefinition.OfMembers(members),
                new ControllerType(entry.name(), points),
                0));
    }

    /** That some controllers tell it and others do not is probably a slip; that none does may be all there is. */
    private boolean isTold(GroupEntry entry, List<ControllerDefinition> members, GroupCount count) {
        for (int i = 0; i < members.size(); i++) {
            ControllerDefinition member = members.get(i);
            if (count.counted(member).isEmpty()) {
                TypeSettings type = file.types().get(member.type().name());
                Place place = entry.members().get(i).place();
                String message =
                        "groups." + entry.name() + ": " + count.pointName() + " is not counted, since no row that is"
                                + " read says " + count.meaning().word() + " under " + MeaningCell.COLUMN
                                + (type == null ? "" : " in " + type.points()) + ", the list of " + member.name();
                if (members.stream().anyMatch(other -> count.counted(other).isPresent())) {
                    problems.warning(place, message);
                } else {
                    problems.note(place, message);
                }
                return false;
            }
        }
        return true;
    }
}
