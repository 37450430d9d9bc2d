package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.RandomUnit.Controller;
import burnerbridge.config.RandomUnit.Row;
import burnerbridge.config.problem.Problem;
import burnerbridge.model.Seed;
import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.guard.PhysicalUnit;
import burnerbridge.site.guard.Place;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the guard protects and the loader refuses, against a brute-force expansion of the same texts, over thousands of
 * random units. A seed given as {@code -Dseed=…} is run again; {@code -Dunits=…} runs longer.
 */
class GuardOracleTest {
    private static final int UNITS = Integer.getInteger("units", 2000);
    /** Past the highest address that any controller's points have. */
    private static final int WINDOW = 4 * RandomUnit.SPAN;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private int forbidden;
    private int free;
    private int refusedPermits;
    private int otherPermits;

    @Test
    void theGuardProtectsEveryBitThatAnExpansionByHandDoesAndNoOther() {
        long seed = Seed.value();
        Random random = new Random(seed);
        for (int i = 0; i < UNITS; i++) {
            judge(new RandomUnit(random), "seed " + seed + ", unit " + i);
        }
        System.out.println("seed " + seed + ": " + UNITS + " units, " + forbidden + " writes forbidden, " + free
                + " not, " + refusedPermits + " permits refused for what is protected, " + otherPermits + " not");
        assertThat(forbidden).isGreaterThan(UNITS);
        assertThat(free).isGreaterThan(UNITS);
        assertThat(refusedPermits).isGreaterThan(UNITS / 4);
        assertThat(otherPermits).isGreaterThan(UNITS / 4);
    }

    private void judge(RandomUnit unit, String which) {
        SiteFiles files = new SiteFiles(folder);
        unit.types.forEach(type -> files.write(type.name() + ".csv", RandomUnit.csv(type)));
        SiteFolder loaded = files.write("site.yaml", unit.yaml(List.of())).load();
        assertThat(loaded.problems().stream().filter(Problem::isError))
                .as(which)
                .isEmpty();
        List<ControllerDefinition> controllers = loaded.site().orElseThrow().controllers();
        for (int number : List.of(1, 2)) {
            BitOracle oracle = new BitOracle(
                    unit.controllers.stream().filter(c -> c.unit() == number).toList());
            Guard guard = Guard.of(controllers).get(new PhysicalUnit(new Name("annex"), new UnitId(number)));
            assertThat(guard).as(which).isNotNull();
            assertThat(guard.tablesAreSeparate()).as(which).isEqualTo(oracle.isSeparate());
            assertThat(bits(guard)).as(which).isEqualTo(oracle.forbidden());
            compareAddresses(guard, oracle, which);
        }
        compareRows(unit, controllers, which);
        comparePermits(unit, files, which);
    }

    private static Set<String> bits(Guard guard) {
        Set<String> bits = new TreeSet<>();
        guard.entries().forEach(entry -> {
            AddressRange range = entry.place().range();
            IntStream.rangeClosed(range.first(), range.last())
                    .forEach(address -> IntStream.range(0, 16)
                            .filter(bit -> (entry.place().mask() >> bit & 1) == 1)
                            .forEach(bit -> bits.add(range.table().word() + "/" + address + "/" + bit)));
        });
        return bits;
    }

    private void compareAddresses(Guard guard, BitOracle oracle, String which) {
        for (RegisterTable table : List.of(RegisterTable.COIL, RegisterTable.HOLDING_REGISTER)) {
            for (int address = 0; address < WINDOW; address += 3) {
                boolean expected = oracle.forbids(table.word(), IntStream.of(address, address + 1));
                assertThat(guard.against(AddressRange.of(table, address, 2)).isPresent())
                        .as("%s: %s %s", which, table, address)
                        .isEqualTo(expected);
                forbidden += expected ? 1 : 0;
                free += expected ? 0 : 1;
            }
        }
    }

    private void compareRows(RandomUnit unit, List<ControllerDefinition> controllers, String which) {
        for (ControllerDefinition controller : controllers) {
            Controller text = unit.controllers.stream()
                    .filter(c -> c.name().equals(controller.name().text()))
                    .findFirst()
                    .orElseThrow();
            BitOracle oracle = oracle(unit, text);
            Guard guard = Guard.of(controllers).get(PhysicalUnit.of(controller));
            for (PointDefinition point : controller.type().points()) {
                Row row = text.type().rows().stream()
                        .filter(r -> r.name().equals(point.name().text()))
                        .findFirst()
                        .orElseThrow();
                assertThat(guard).isNotNull();
                assertThat(guard.against(Place.writtenBy(point)).isPresent())
                        .as("%s: %s.%s", which, controller.name(), row)
                        .isEqualTo(oracle.forbids(row.table(), BitOracle.addresses(text, row)));
            }
        }
    }

    private static BitOracle oracle(RandomUnit unit, Controller controller) {
        return new BitOracle(unit.controllers.stream()
                .filter(c -> c.unit() == controller.unit())
                .toList());
    }

    /** A permit for every row that its role and table would allow; what else is wrong with it is not looked at. */
    private void comparePermits(RandomUnit unit, SiteFiles files, String which) {
        List<String> permits = new ArrayList<>();
        Set<String> expected = new TreeSet<>();
        for (Controller controller : unit.controllers) {
            BitOracle oracle = oracle(unit, controller);
            for (Row row : controller.type().rows()) {
                boolean table = row.table().equals("coil") || row.table().equals("holding-register");
                boolean role = Set.of("demand", "enable", "mode", "heartbeat", "record-select")
                        .contains(row.role());
                if (table && role && !row.means().equals("fuel")) {
                    String id = controller.name() + "." + row.name();
                    permits.add("{point: " + id + "}");
                    if (oracle.forbids(row.table(), BitOracle.addresses(controller, row))) {
                        expected.add(id);
                    }
                }
            }
        }
        Set<String> refused = new TreeSet<>();
        files.write("site.yaml", unit.yaml(permits)).load().problems().stream()
                .map(Problem::message)
                .filter(message -> message.contains(" can never be written: a write could change "))
                .forEach(message -> refused.add(message.replaceFirst("^write-permits\\.([^:]*)\\.point: .*", "$1")));
        assertThat(refused).as(which).isEqualTo(expected);
        refusedPermits += expected.size();
        otherPermits += permits.size() - expected.size();
    }
}
