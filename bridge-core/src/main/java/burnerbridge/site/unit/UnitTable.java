package burnerbridge.site.unit;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The table of units, read from the resource {@code units.csv}. Anything in it that is not as it should
 * be is a fault of the program, told as an exception that names the line.
 */
final class UnitTable {
    static final UnitTable SHIPPED = shipped();

    private static final String RESOURCE = "units.csv";
    private static final int COLUMNS = 11;

    private final List<Unit> units;
    private final Map<String, Unit> byName = new HashMap<>();
    private final Map<String, Unit> differences = new HashMap<>();

    private UnitTable(List<Unit> units) {
        this.units = List.copyOf(units);
        for (Unit unit : units) {
            index(unit, unit.symbol());
        }
        for (Unit unit : units) {
            unit.ucumCodes().stream()
                    .filter(code -> !unit.isDifference() && !code.equals(unit.symbol()))
                    .forEach(code -> index(unit, code));
        }
        units.forEach(this::checkShown);
    }

    private void checkShown(Unit unit) {
        for (UnitSystem system : UnitSystem.values()) {
            String shown = unit.symbolIn(system);
            Map<String, Unit> index = unit.isDifference() ? differences : byName;
            Unit other = shown.isEmpty() ? unit : index.get(shown);
            if (other == null || !unit.canBeShownAs(other)) {
                throw new IllegalStateException(unit + " cannot be shown as '" + shown + "'");
            }
        }
    }

    private void index(Unit unit, String name) {
        Map<String, Unit> index = unit.isDifference() ? differences : byName;
        if (index.putIfAbsent(name, unit) != null) {
            throw new IllegalStateException("two units are written '" + name + "'");
        }
    }

    private static UnitTable shipped() {
        try (InputStream in = UnitTable.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException(RESOURCE + " is missing");
            }
            return read(new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))
                    .lines()
                    .toList());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** @param lines a header after any number of comments, then a unit a line */
    static UnitTable read(List<String> lines) {
        List<Unit> units = new ArrayList<>();
        boolean header = true;
        for (int i = 0; i < lines.size(); i++) {
            if (!lines.get(i).startsWith("#")) {
                if (!header) {
                    units.add(unit(lines.get(i), i + 1));
                }
                header = false;
            }
        }
        return new UnitTable(units);
    }

    private static Unit unit(String line, int number) {
        String[] cells = line.split(";", -1);
        try {
            if (cells.length != COLUMNS) {
                throw new IllegalArgumentException("must have " + COLUMNS + " cells (was " + cells.length + ")");
            }
            return new Unit(
                    required(cells[0]),
                    list(cells[1]),
                    Quantity.ofWord(cells[2]).orElseThrow(() -> new IllegalArgumentException(cells[2])),
                    isDifference(cells[3]),
                    positive(Ratio.parse(cells[4])),
                    Ratio.parse(cells[5]),
                    Integer.parseInt(cells[6]),
                    cells[7],
                    cells[8],
                    list(cells[9]),
                    required(cells[10]));
        } catch (IllegalArgumentException | ArithmeticException e) {
            throw new IllegalStateException(RESOURCE + ":" + number + ": " + e.getMessage() + " in " + line, e);
        }
    }

    private static String required(String cell) {
        if (cell.isBlank()) {
            throw new IllegalArgumentException("symbol and source must not be empty");
        }
        return cell;
    }

    private static List<String> list(String cell) {
        return cell.isEmpty() ? List.of() : List.of(cell.split("\\|"));
    }

    private static boolean isDifference(String kind) {
        if (!kind.equals("absolute") && !kind.equals("difference")) {
            throw new IllegalArgumentException("kind must be absolute or difference (was " + kind + ")");
        }
        return kind.equals("difference");
    }

    private static Ratio positive(Ratio factor) {
        if (factor.signum() <= 0) {
            throw new IllegalArgumentException("factor must be more than 0");
        }
        return factor;
    }

    List<Unit> units() {
        return units;
    }

    Optional<Unit> find(String written) {
        return Optional.ofNullable(byName.get(Signs.plain(written)));
    }

    Optional<Unit> difference(Unit unit) {
        return Optional.ofNullable(differences.get(unit.symbol()));
    }
}
