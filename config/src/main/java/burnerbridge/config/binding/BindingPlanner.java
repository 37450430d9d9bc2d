package burnerbridge.config.binding;

import burnerbridge.config.binding.BindingRow.Gone;
import burnerbridge.config.file.SiteFile.Based;
import burnerbridge.config.meaning.ObjectCell;
import burnerbridge.site.Bindings.Binding;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.StateNumbers;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * Works out what the bindings must become so that every point has an object and none that has one loses it.
 * Rows are never taken out and offsets never changed; what no longer has a point is marked gone.
 */
public final class BindingPlanner {
    private final Map<Name, ControllerType> types;
    /** Whether every row of a type's list was read, so that what is missing there is gone. */
    private final Predicate<Name> isWhole;

    private final List<Based> controllers;
    private final List<BindingRow> before;

    public BindingPlanner(
            Map<Name, ControllerType> types,
            Predicate<Name> isWhole,
            List<Based> controllers,
            List<BindingRow> before) {
        this.types = types;
        this.isWhole = isWhole;
        this.controllers = controllers;
        this.before = before;
    }

    /** Where a point is read from, in words that do not depend on the numbering of the list. */
    static String at(PointDefinition point) {
        if (point.isDerived()) {
            return point.format().word();
        }
        String lower = point.consistency().lowerWord().isPresent()
                ? "+" + point.consistency().lowerWord().getAsInt()
                : "";
        return point.table().word() + " wire " + point.wireAddress() + lower + " "
                + point.format().word();
    }

    public BindingPlan plan(BindingChoices choices) {
        List<BindingRow> rows = new ArrayList<>(before);
        List<BindingStep> steps = new ArrayList<>();
        List<String> refused = new ArrayList<>();
        new BindingRenames(types, rows, steps, refused).apply(choices.renamed());
        refuseUnknown(choices, refused);
        RenameDoubts doubts = new RenameDoubts(types, isWhole, rows, choices.notRenamed());
        List<BindingPlan.Doubt> found = doubts.find();
        new Work(rows, steps, doubts).run();
        return new BindingPlan(rows, steps, found, refused);
    }

    private void refuseUnknown(BindingChoices choices, List<String> refused) {
        for (String name : choices.notRenamed()) {
            boolean known = types.values().stream()
                    .anyMatch(type -> type.name().text().equals(name)
                            || type.points().stream()
                                    .anyMatch(point -> (type.name() + "." + point.name()).equals(name)));
            if (!known) {
                refused.add("--not-renamed " + name + ": is no type of site.yaml and no type.point of a point list");
            }
        }
    }

    /** One pass over the rows and the lists. */
    private final class Work {
        private final List<BindingRow> rows;
        private final List<BindingStep> steps;
        private final RenameDoubts doubts;
        private final FreeOffsets offsets;
        private final Map<String, List<Integer>> byPoint = new HashMap<>();
        /** Where each point of the lists is read from. */
        private final Map<String, String> places = new HashMap<>();

        Work(List<BindingRow> rows, List<BindingStep> steps, RenameDoubts doubts) {
            this.rows = rows;
            this.steps = steps;
            this.doubts = doubts;
            this.offsets = new FreeOffsets(types.values(), controllers, rows);
            for (int i = 0; i < rows.size(); i++) {
                index(rows.get(i), i);
            }
            types.values()
                    .forEach(type ->
                            type.points().forEach(point -> places.put(type.name() + "." + point.name(), at(point))));
        }

        private void index(BindingRow row, int position) {
            byPoint.computeIfAbsent(row.id(), id -> new ArrayList<>()).add(position);
        }

        void run() {
            markGone();
            types.values().stream()
                    .filter(type -> isWhole.test(type.name()))
                    .forEach(type -> type.points().stream()
                            .filter(point -> point.wantsObject() && !doubts.holds(type.name(), point.name()))
                            .forEach(point -> bind(type.name(), point)));
        }

        private void markGone() {
            Map<Name, Set<Name>> listed = types.values().stream()
                    .collect(Collectors.toMap(
                            ControllerType::name,
                            type -> type.points().stream()
                                    .map(PointDefinition::name)
                                    .collect(Collectors.toSet())));
            for (int i = 0; i < rows.size(); i++) {
                BindingRow row = rows.get(i);
                boolean there = listed.getOrDefault(row.type(), Set.of()).contains(row.point());
                if (row.isLive() && !there && isWhole.test(row.type()) && !doubts.holds(row.type(), row.point())) {
                    rows.set(i, row.withGone(Gone.YES));
                    steps.add(BindingStep.gone(row));
                }
            }
        }

        private void bind(Name type, PointDefinition point) {
            List<Integer> own = byPoint.getOrDefault(type + "." + point.name(), List.of());
            Optional<Integer> live =
                    own.stream().filter(i -> rows.get(i).isLive()).findFirst();
            if (live.isPresent() && rows.get(live.get()).object() == point.object()) {
                keep(live.get(), point);
                return;
            }
            Optional<Integer> back = own.stream()
                    .filter(i -> rows.get(i).gone() == Gone.YES && rows.get(i).object() == point.object())
                    .findFirst();
            Optional<BindingRow> next =
                    back.isPresent() ? Optional.of(revived(rows.get(back.get()), point)) : fresh(type, point, own);
            if (next.isEmpty()) {
                steps.add(BindingStep.noInstanceLeft(type + "." + point.name()));
                return;
            }
            tell(live.map(rows::get), next.get(), back.isPresent());
            live.ifPresent(i -> rows.set(i, rows.get(i).withGone(Gone.YES)));
            if (back.isPresent()) {
                rows.set(back.get(), next.get());
            } else {
                index(next.get(), rows.size());
                rows.add(next.get());
                offsets.take(next.get());
            }
        }

        private void tell(Optional<BindingRow> live, BindingRow next, boolean back) {
            if (live.isPresent()) {
                steps.add(BindingStep.otherObject(
                        live.get(),
                        ObjectCell.article(next.object()) + (back ? " again" : "") + ", offset " + next.offset()));
            } else {
                steps.add(back ? BindingStep.back(next) : BindingStep.added(next));
            }
        }

        private BindingRow revived(BindingRow row, PointDefinition point) {
            return row.withGone(Gone.NO).withAt(at(point)).withStates(numbers(row.states(), point));
        }

        private StateNumbers numbers(StateNumbers given, PointDefinition point) {
            return point.object().isMultiState() ? given.with(point.states()) : StateNumbers.NONE;
        }

        /** A new row; with the offset that the point had as another kind of object, where that is free. */
        private Optional<BindingRow> fresh(Name type, PointDefinition point, List<Integer> own) {
            Optional<Integer> had = own.stream()
                    .map(rows::get)
                    .filter(row -> row.gone() != Gone.FOR_GOOD)
                    .map(BindingRow::offset)
                    .filter(offset -> offsets.isFree(type, point.object(), offset))
                    .findFirst();
            return had.or(() -> offsets.find(type, point.name(), point.object()))
                    .map(offset -> BindingRow.fresh(
                            new Binding(type, point.name(), point.object(), offset, numbers(StateNumbers.NONE, point)),
                            at(point)));
        }

        private BindingStep movedStep(BindingRow row, String at) {
            if (row.at().isEmpty()) {
                return BindingStep.placeNoted(row);
            }
            return before.stream()
                    .filter(other -> other.isLive()
                            && other.type().equals(row.type())
                            && other.at().equals(at))
                    .filter(other -> row.at().equals(places.get(other.id())))
                    .findFirst()
                    .map(other -> BindingStep.exchanged(row, other, at))
                    .orElseGet(() -> BindingStep.readFromElsewhere(row, at));
        }

        private void keep(int i, PointDefinition point) {
            BindingRow row = rows.get(i);
            StateNumbers numbers = numbers(row.states(), point);
            if (point.object().isMultiState()
                    && !row.states().missing(point.states()).isEmpty()) {
                String states = row.states().missing(point.states()).stream()
                        .map(String::valueOf)
                        .collect(Collectors.joining(", "));
                steps.add(BindingStep.statesNumbered(row, states));
            }
            if (!row.at().equals(at(point))) {
                steps.add(movedStep(row, at(point)));
            }
            rows.set(i, row.withStates(numbers).withAt(at(point)));
        }
    }
}
