package burnerbridge.config;

import burnerbridge.config.CsvTable.Cell;
import burnerbridge.config.Problems.Place;
import burnerbridge.site.Bindings.Binding;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** {@code bindings.csv}: which BACnet object instance each point of a type has, for ever. */
final class BindingsFile {
    static final String NAME = "bindings.csv";

    private static final List<String> COLUMNS = List.of("type", "point", "object", "offset");
    private static final List<String> KINDS = List.of(
            ObjectKind.ANALOG_INPUT.word(), ObjectKind.BINARY_INPUT.word(), ObjectKind.MULTI_STATE_INPUT.word());

    /** A binding and where it stands, for problems that show only together with the point lists. */
    record Entry(Binding binding, Place place) {}

    private final Problems problems;

    BindingsFile(Problems problems) {
        this.problems = problems;
    }

    /** The bindings of the file; none where there is no such file. */
    List<Entry> read(Path folder) {
        if (!Files.exists(folder.resolve(NAME))) {
            return List.of();
        }
        Optional<List<List<Cell>>> rows = CsvTable.read(folder, NAME, problems);
        if (rows.isEmpty() || rows.get().isEmpty()) {
            return List.of();
        }
        List<Cell> header = rows.get().get(0);
        if (!header.stream().map(Cell::text).toList().equals(COLUMNS)) {
            problems.error(header.get(0).place(), "the header must be " + String.join(",", COLUMNS));
            return List.of();
        }
        return entries(header, rows.get().subList(1, rows.get().size()));
    }

    private List<Entry> entries(List<Cell> header, List<List<Cell>> rows) {
        List<Entry> entries = new ArrayList<>();
        Map<String, Place> points = new HashMap<>();
        Map<String, Place> offsets = new HashMap<>();
        for (List<Cell> cells : rows) {
            Place place = cells.get(0).place();
            PointRow row = new PointRow(CsvTable.byColumn(header, cells, problems), place, problems);
            entry(row).ifPresent(binding -> {
                refuseTwice(row, "point", points.putIfAbsent(binding.type() + "." + binding.point(), place));
                refuseTwice(row, "offset", offsets.putIfAbsent(binding.type() + "/" + binding.offset(), place));
                if (!row.isFaulty()) {
                    entries.add(new Entry(binding, place));
                }
            });
        }
        return entries;
    }

    private static void refuseTwice(PointRow row, String column, Place before) {
        if (before != null) {
            row.error(column, "'" + row.text(column) + "' is already bound in line " + before.line());
        }
    }

    private static Optional<Binding> entry(PointRow row) {
        Optional<Name> type = name(row, "type");
        Optional<Name> point = name(row, "point");
        row.required("object");
        Optional<ObjectKind> object = row.word("object", KINDS).map(word -> ObjectKind.values()[KINDS.indexOf(word)]);
        String offset = row.required("offset");
        if (!offset.isEmpty() && !isOffset(offset)) {
            row.error("offset", "must be 1 to " + SiteFileReader.LAST_INSTANCE + " (was '" + offset + "')");
        }
        if (row.isFaulty() || type.isEmpty() || point.isEmpty() || object.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Binding(type.get(), point.get(), object.get(), Integer.parseInt(offset)));
    }

    private static boolean isOffset(String text) {
        return text.matches("\\d{1,7}")
                && Integer.parseInt(text) >= 1
                && Integer.parseInt(text) <= SiteFileReader.LAST_INSTANCE;
    }

    private static Optional<Name> name(PointRow row, String column) {
        String text = row.required(column);
        String objection = text.isEmpty() ? "" : Name.objectionTo(text);
        if (!objection.isEmpty()) {
            row.error(column, objection);
        }
        return text.isEmpty() || !objection.isEmpty() ? Optional.empty() : Optional.of(new Name(text));
    }

    /** Writes the file whole or not at all, with the permissions that it had. */
    static void write(Path folder, List<Binding> bindings) throws IOException {
        StringBuilder text = new StringBuilder(String.join(",", COLUMNS)).append('\n');
        for (Binding binding : bindings) {
            text.append(binding.type()).append(',').append(binding.point()).append(',');
            text.append(binding.object().word())
                    .append(',')
                    .append(binding.offset())
                    .append('\n');
        }
        Path file = folder.resolve(NAME);
        Path next = folder.resolve("." + NAME + ".next");
        try {
            Files.writeString(next, text, StandardCharsets.UTF_8);
            if (Files.exists(file) && Files.getFileStore(file).supportsFileAttributeView("posix")) {
                Files.setPosixFilePermissions(next, Files.getPosixFilePermissions(file));
            }
            Files.move(next, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(next);
        }
    }
}
