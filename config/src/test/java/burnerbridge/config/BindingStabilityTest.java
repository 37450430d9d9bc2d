package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.EditedSite.Controller;
import burnerbridge.config.EditedSite.Point;
import burnerbridge.config.EditedSite.Shape;
import burnerbridge.config.binding.BindingChoices;
import burnerbridge.config.problem.Problem;
import burnerbridge.model.Seed;
import burnerbridge.site.Bindings.Binding;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.StateNumbers;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.io.TempDir;

/**
 * Whatever is edited, no point's instance and no state's number ever moves, and none is ever given twice. What
 * must hold is kept here, in a ledger that is only ever added to.
 */
class BindingStabilityTest {
    private static final int BINDS = 50;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private long seed;
    private Random random = new Random(0);

    private final Map<String, Integer> instances = new HashMap<>();
    private final Map<String, String> owners = new HashMap<>();
    private final Map<String, Integer> numbers = new HashMap<>();
    private final Map<String, Long> states = new HashMap<>();

    @RepeatedTest(20)
    void noEditMovesAnInstanceOrAStateOrGivesOneTwice(RepetitionInfo repetition) throws IOException {
        seed = Seed.value() + repetition.getCurrentRepetition();
        random = new Random(seed);
        SiteFiles files = new SiteFiles(folder);
        EditedSite edited = new EditedSite(random);
        int silent = 0;
        for (int i = 0; i < BINDS; i++) {
            for (int e = random.nextInt(9); e > 0 && i > 0; e--) {
                edited.edit();
            }
            write(files, edited);
            BindingChoices choices = edited.choices();
            if (edited.mayStaySilent() && !choices.equals(BindingChoices.NONE) && random.nextBoolean()) {
                silent++;
                bind(files, BindingChoices.NONE, choices.toString());
                record(edited, files.load(), false);
            }
            bind(files, choices, "");
            record(edited, files.load(), true);
            edited.bound(bound());
            saveElsewhere();
        }
        System.out.println("seed " + seed + ": " + edited.edits + " edits, " + BINDS + " binds, " + silent
                + " of them after renames that nobody had stated, " + owners.size() + " instances");
    }

    private void write(SiteFiles files, EditedSite edited) {
        files.write("site.yaml", edited.yaml());
        edited.types.forEach(type -> files.write("points/" + edited.file(type), edited.list(type)));
    }

    private void bind(SiteFiles files, BindingChoices choices, String unsaid) throws IOException {
        SiteFolder loaded = files.load();
        assertThat(loaded.problems()).as(context()).noneMatch(Problem::isError);
        SiteFolder.Bound bound = loaded.bind(choices);
        assertThat(bound.refused()).as(context() + choices + unsaid).isEmpty();
    }

    private String context() {
        return "seed " + seed + "\n" + bindingsText();
    }

    private String bindingsText() {
        try {
            Path file = folder.resolve("bindings.csv");
            return Files.exists(file) ? Files.readString(file) : "";
        } catch (IOException e) {
            return e.toString();
        }
    }

    /** Which identities have a binding, by the ledger. */
    private Set<Integer> bound() {
        Set<Integer> identities = new HashSet<>();
        instances.keySet().forEach(key -> identities.add(Integer.valueOf(key.split("/")[1])));
        return identities;
    }

    private void record(EditedSite edited, SiteFolder loaded, boolean all) {
        assertThat(loaded.problems()).as(context()).noneMatch(Problem::isError);
        Site site = loaded.site().orElseThrow();
        for (SitePoint served : site.points()) {
            Controller controller = edited.controllers.stream()
                    .filter(c -> ("boiler-" + c.identity())
                            .equals(served.controller().name().text()))
                    .findFirst()
                    .orElseThrow();
            Point point = controller.type().points.stream()
                    .filter(p -> p.name.equals(served.definition().name().text()))
                    .findFirst()
                    .orElseThrow();
            record(site, served, controller, point, all);
        }
    }

    private void record(Site site, SitePoint served, Controller controller, Point point, boolean all) {
        OptionalInt instance = point.shape == Shape.HIDDEN
                ? OptionalInt.empty()
                : site.bindings().instanceOf(served);
        String why = context() + served.id() + " identity " + point.identity;
        if (all) {
            assertThat(instance.isPresent()).as(why).isEqualTo(point.shape != Shape.HIDDEN);
        }
        if (instance.isEmpty()) {
            return;
        }
        String owner = controller.identity() + "/" + point.identity;
        Integer before = instances.putIfAbsent(owner + "/" + point.shape, instance.getAsInt());
        assertThat(instance.getAsInt()).as(why).isEqualTo(before == null ? instance.getAsInt() : before);
        String holder = owners.putIfAbsent(point.shape + "/" + instance.getAsInt(), owner);
        assertThat(owner).as(why).isEqualTo(holder == null ? owner : holder);
        if (point.shape == Shape.STATES) {
            Optional<Binding> binding = site.bindings()
                    .of(served.controller().type().name(), served.definition().name());
            recordStates(binding.orElseThrow().states(), point, all, why);
        }
    }

    private void recordStates(StateNumbers given, Point point, boolean all, String why) {
        for (long state : point.states.keySet()) {
            OptionalInt number = given.of(state);
            assertThat(number.isPresent() || !all).as(why).isTrue();
            if (number.isPresent()) {
                Integer before = numbers.putIfAbsent(point.identity + "/" + state, number.getAsInt());
                assertThat(number.getAsInt()).as(why).isEqualTo(before == null ? number.getAsInt() : before);
                Long holder = states.putIfAbsent(point.identity + "#" + number.getAsInt(), state);
                assertThat(state).as(why).isEqualTo(holder == null ? state : holder);
            }
        }
    }

    /** What a person or a spreadsheet does to the file between two binds. */
    private void saveElsewhere() throws IOException {
        Path file = folder.resolve("bindings.csv");
        String text = Files.readString(file);
        switch (random.nextInt(6)) {
            case 0 -> Files.writeString(file, text.contains(";") ? text.replace(';', ',') : text.replace(',', ';'));
            case 1 -> Files.writeString(file, text.replaceAll("\r?\n", "\r\n"));
            case 2 -> Files.writeString(file, text.startsWith("\uFEFF") ? text.substring(1) : '\uFEFF' + text);
            case 3 -> {
                List<String> lines = new ArrayList<>(text.lines().toList());
                Collections.shuffle(lines.subList(1, lines.size()), random);
                Files.writeString(file, String.join("\n", lines) + "\n", StandardCharsets.UTF_8);
            }
            default -> {}
        }
    }
}
