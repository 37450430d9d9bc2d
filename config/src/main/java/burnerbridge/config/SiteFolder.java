package burnerbridge.config;

import burnerbridge.config.binding.AskedRows;
import burnerbridge.config.binding.BindingCheck;
import burnerbridge.config.binding.BindingChoices;
import burnerbridge.config.binding.BindingDraft;
import burnerbridge.config.binding.BindingPlanner;
import burnerbridge.config.binding.BindingRow;
import burnerbridge.config.binding.BindingsFile;
import burnerbridge.config.file.Groups;
import burnerbridge.config.file.NamedFile;
import burnerbridge.config.file.OffsetCheck;
import burnerbridge.config.file.PaceCheck;
import burnerbridge.config.file.PlanCheck;
import burnerbridge.config.file.SiteFile;
import burnerbridge.config.file.SiteFile.Based;
import burnerbridge.config.file.SiteFile.ControllerEntry;
import burnerbridge.config.file.SiteFileReader;
import burnerbridge.config.meaning.ObjectCell;
import burnerbridge.config.permit.Permits;
import burnerbridge.config.point.ObjectNameCheck;
import burnerbridge.config.point.PointLists;
import burnerbridge.config.point.PointOrigin;
import burnerbridge.config.problem.Durations;
import burnerbridge.config.problem.Problem;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.site.unit.UnitSystem;
import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A site folder as it was when it was loaded: the site, or everything that is wrong with it.
 *
 * @param site present only where no problem is an error
 * @param problems every problem of every file, by file and line
 * @param bindings the bindings as they were read, for {@link #bind}
 * @param origins by type and point, where each point stands
 * @param namedFiles files outside the folder that {@code site.yaml} names; nobody looked at them
 * @param files those that it consists of, by their names inside of the folder, whether they are there or not
 */
public record SiteFolder(
        Path folder,
        Optional<Site> site,
        List<Problem> problems,
        BindingDraft bindings,
        Map<Name, Map<Name, PointOrigin>> origins,
        List<NamedFile> namedFiles,
        List<String> files) {

    /**
     * What {@link #bind} did.
     *
     * @param site the folder as it is now
     * @param done sentences, one for each thing done
     * @param refused why choices could not be followed; nothing was then done
     */
    public record Bound(SiteFolder site, List<String> done, List<String> refused) {}

    public SiteFolder {
        problems = List.copyOf(problems);
        namedFiles = List.copyOf(namedFiles);
        files = List.copyOf(files);
    }

    /** Reads every file of the folder. Never throws for what the files hold. */
    public static SiteFolder load(Path folder) {
        Problems problems = new Problems();
        Optional<SiteFile> file = new SiteFileReader(folder, problems).read();
        if (file.isEmpty()) {
            return new SiteFolder(
                    folder,
                    Optional.empty(),
                    problems.inOrder(),
                    BindingDraft.NOTHING,
                    Map.of(),
                    List.of(),
                    List.of(SiteFile.NAME));
        }
        Map<Name, ControllerType> types = new LinkedHashMap<>();
        ZoneId zone = file.get().zone().orElse(ZoneOffset.UTC);
        UnitSystem units = file.get().units();
        boolean basicObjects =
                file.get().bacnet().map(b -> b.options().basicObjects()).orElse(false);
        PointLists lists = new PointLists(folder, zone, units, file.get().language(), basicObjects, problems);
        file.get().types().forEach((name, settings) -> types.put(name, lists.type(settings)));
        BindingsFile.Content bindings = new BindingsFile(problems).read(folder);
        List<ControllerDefinition> controllers =
                controllers(file.get().controllers(), types, new OffsetCheck(problems));
        List<ControllerDefinition> groups = new Groups(file.get(), controllers, problems).make();
        groups.forEach(group -> types.put(group.name(), group.type()));
        List<ControllerDefinition> owners =
                Stream.concat(controllers.stream(), groups.stream()).toList();
        List<Based> based = based(file.get());
        List<WritePermit> permits = new Permits(
                        file.get().permits(),
                        owners,
                        file.get().lines(),
                        lists.origins(),
                        type -> isWhole(file.get(), type, problems),
                        problems)
                .make();
        file.get()
                .bacnet()
                .ifPresent(b -> new ObjectNameCheck(b.deviceName(), b.options().objectNames(), lists, problems)
                        .run(owners, permits));
        BindingCheck check = new BindingCheck(based, bindings.rows(), problems);
        check.checkInstances();
        Map<Name, ControllerType> bound = AskedRows.with(types, owners, permits);
        Optional<BindingPlanner> planner = file.get()
                .bacnet()
                .map(bacnet ->
                        new BindingPlanner(bound, type -> isWhole(file.get(), type, problems), based, bindings.rows()));
        planner.ifPresent(p -> check.tellPlan(p.plan(BindingChoices.NONE)));
        checkStaleness(file.get(), controllers, problems);
        new PaceCheck(file.get(), controllers, problems).run();
        Optional<Site> site = problems.hasErrors()
                ? Optional.empty()
                : Optional.of(site(file.get(), controllers, groups, bindings.rows(), permits));
        site.ifPresent(new PlanCheck(problems)::run);
        return new SiteFolder(
                folder,
                site,
                problems.inOrder(),
                new BindingDraft(bindings, planner),
                origins(lists, file.get(), groups),
                file.get().namedFiles(),
                files(file.get()));
    }

    private static List<String> files(SiteFile file) {
        return Stream.concat(
                        Stream.of(SiteFile.NAME, BindingsFile.NAME),
                        file.types().values().stream()
                                .flatMap(type ->
                                        Stream.of(type.points(), type.causes().file())))
                .filter(name -> !name.isBlank())
                .distinct()
                .sorted()
                .toList();
    }

    /** Points of groups stand where their group does. */
    private static Map<Name, Map<Name, PointOrigin>> origins(
            PointLists lists, SiteFile file, List<ControllerDefinition> groups) {
        Map<Name, Map<Name, PointOrigin>> origins = new LinkedHashMap<>(lists.origins());
        for (ControllerDefinition group : groups) {
            int line = file.groups().stream()
                    .filter(entry -> entry.name().equals(group.name()))
                    .mapToInt(entry -> entry.place().line())
                    .findFirst()
                    .orElse(0);
            origins.put(
                    group.name(),
                    group.type().points().stream()
                            .collect(Collectors.toMap(
                                    PointDefinition::name, point -> new PointOrigin(SiteFile.NAME, line, "", ""))));
        }
        return origins;
    }

    private static List<Based> based(SiteFile file) {
        return Stream.concat(
                        file.controllers().stream()
                                .map(c -> new Based(c.name(), c.type(), c.instanceBase(), c.place())),
                        file.groups().stream().map(g -> new Based(g.name(), g.name(), 0, g.place())))
                .toList();
    }

    private static boolean isWhole(SiteFile file, Name type, Problems problems) {
        TypeSettings settings = file.types().get(type);
        return settings == null
                ? !problems.hasErrorsIn(SiteFile.NAME)
                : !problems.hasErrorsIn(settings.points())
                        && !problems.hasErrorsIn(settings.causes().file());
    }

    /** A reading that may turn stale before the next one can have come would flicker. */
    private static void checkStaleness(SiteFile file, List<ControllerDefinition> controllers, Problems problems) {
        for (LineDefinition line : file.lines()) {
            controllers.stream()
                    .filter(controller -> controller.isOn(line.name()))
                    .flatMap(controller -> controller.type().points().stream())
                    .filter(PointDefinition::isPolled)
                    .filter(point -> point.staleAfter().compareTo(point.every().plus(line.replyTimeout())) <= 0)
                    .findFirst()
                    .ifPresent(point -> problems.error(
                            Place.wholeFile(SiteFile.NAME),
                            "lines." + line.name() + ".reply-timeout: " + Durations.text(line.replyTimeout())
                                    + " and the interval of " + point.name() + ", " + Durations.text(point.every())
                                    + ", together must be shorter than its stale-after of "
                                    + Durations.text(point.staleAfter())));
        }
    }

    private static List<ControllerDefinition> controllers(
            List<ControllerEntry> entries, Map<Name, ControllerType> types, OffsetCheck offsets) {
        List<ControllerDefinition> controllers = new ArrayList<>();
        for (ControllerEntry entry : entries) {
            ControllerType type = types.get(entry.type());
            if (type != null) {
                controllers.add(new ControllerDefinition(
                        controllers.size(),
                        entry.name(),
                        entry.line(),
                        entry.unit(),
                        offsets.moved(entry, type),
                        entry.instanceBase(),
                        entry.anyReplyUnit(),
                        entry.addressOffset()));
            }
        }
        return controllers;
    }

    private static Site site(
            SiteFile file,
            List<ControllerDefinition> controllers,
            List<ControllerDefinition> groups,
            List<BindingRow> bindings,
            List<WritePermit> permits) {
        return new Site(
                file.name().orElseThrow(),
                file.description(),
                file.language().chosen(),
                file.zone().orElseThrow(),
                file.lines(),
                controllers,
                groups,
                new Bindings(bindings.stream()
                        .filter(BindingRow::isLive)
                        .map(BindingRow::binding)
                        .toList()),
                file.bacnet(),
                file.mqtt(),
                permits,
                file.web());
    }

    /** Where the row of a point of the site stands. */
    public PointOrigin origin(SitePoint point) {
        Name type = point.controller().type().name();
        return Optional.ofNullable(origins.getOrDefault(type, Map.of())
                        .get(point.definition().name()))
                .orElseThrow(() -> new IllegalArgumentException(point.id() + " is no point of this site"));
    }

    /** Why a point of the site has no BACnet object; empty where it has one. */
    public Optional<String> whyNoObject(SitePoint point) {
        return site.flatMap(loaded -> ObjectCell.whyNone(loaded, point));
    }

    /** The same with what else was found out about it. */
    public SiteFolder with(List<Problem> further) {
        List<Problem> all = Stream.concat(problems.stream(), further.stream()).toList();
        return new SiteFolder(folder, site, Problems.ordered(all), bindings, origins, namedFiles, files);
    }

    public boolean hasErrors() {
        return problems.stream().anyMatch(Problem::isError);
    }

    /**
     * Gives every point that wants one an object for good, in {@code bindings.csv}, and marks what is gone.
     *
     * @throws IOException where the folder cannot be written; the file is then as it was
     */
    public Bound bind(BindingChoices choices) throws IOException {
        if (hasErrors()) {
            throw new IllegalStateException("a site with errors is not bound");
        }
        BindingDraft.Outcome outcome = bindings.write(folder, choices);
        return new Bound(load(folder), outcome.done(), outcome.refused());
    }
}
