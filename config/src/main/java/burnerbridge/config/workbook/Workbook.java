package burnerbridge.config.workbook;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.Sheet;
import org.dhatim.fastexcel.reader.SheetVisibility;

/** A workbook ({@code .xlsx}, ECMA-376) of which one sheet is made into a point list. */
public final class Workbook {
    private static final String RELATIONS = "xl/_rels/workbook.xml.rels";

    private Workbook() {}

    /**
     * Reads a sheet.
     *
     * @param sheet its name; may be left out where only one sheet is visible
     * @param headerRow the sheet's number of the row with the column names, from 1; found by itself where it
     *     holds name, table and address
     * @throws WorkbookException where the file cannot be read, is past all bounds, or it is not clear what to
     *     take
     */
    public static Conversion convert(Path file, Optional<String> sheet, OptionalInt headerRow)
            throws WorkbookException {
        WorkbookParts parts = WorkbookParts.read(file);
        SheetOutline.checkSharedTexts(parts.all());
        Map<String, SheetOutline> outlines = outlines(parts);
        boolean hasStyles = parts.all().keySet().stream().anyMatch(name -> name.endsWith("styles.xml"));
        try (ReadableWorkbook workbook = new ReadableWorkbook(parts.asZip(), new ReadingOptions(hasStyles, true))) {
            List<String> findings = new ArrayList<>();
            Sheet chosen = choose(workbook.getSheets().toList(), sheet, findings);
            List<Row> rows = chosen.read();
            SheetOutline outline = outlines.getOrDefault(chosen.getId(), new SheetOutline(List.of(), List.of()));
            Conversion conversion = new SheetTable(chosen.getName(), rows, outline).convert(headerRow);
            findings.addAll(conversion.findings());
            return new Conversion(
                    conversion.csv(), conversion.sheet(), conversion.headerRow(), conversion.rows(), findings);
        } catch (IOException | RuntimeException e) {
            throw new WorkbookException("is no .xlsx, or a broken one: " + e.getMessage(), e);
        }
    }

    /** By the id of the sheet in the workbook. Every sheet is checked, whatever the workbook calls it. */
    private static Map<String, SheetOutline> outlines(WorkbookParts parts) throws WorkbookException {
        Map<String, SheetOutline> byPart = new HashMap<>();
        for (Map.Entry<String, byte[]> part : parts.all().entrySet()) {
            byPart.put(part.getKey(), SheetOutline.of(part.getValue()));
        }
        Map<String, SheetOutline> byId = new HashMap<>();
        Optional<byte[]> relations = parts.part(RELATIONS);
        if (relations.isPresent()) {
            XmlWalk.over(relations.get(), reader -> {
                String target = XmlWalk.attribute(reader, "Target");
                SheetOutline outline = byPart.get(target.startsWith("/") ? target.substring(1) : "xl/" + target);
                if (outline != null) {
                    byId.put(XmlWalk.attribute(reader, "Id"), outline);
                }
            });
        }
        return byId;
    }

    private static Sheet choose(List<Sheet> sheets, Optional<String> name, List<String> findings)
            throws WorkbookException {
        List<Sheet> visible = sheets.stream()
                .filter(sheet -> sheet.getVisibility() == SheetVisibility.VISIBLE)
                .toList();
        if (name.isPresent()) {
            return sheets.stream()
                    .filter(sheet -> sheet.getName().equals(name.get()))
                    .findFirst()
                    .orElseThrow(
                            () -> new WorkbookException("has no sheet '" + name.get() + "'; it has " + names(sheets)));
        }
        if (visible.size() != 1) {
            throw new WorkbookException(
                    "has " + sheets.size() + " sheets; say which one with --sheet: " + names(sheets));
        }
        if (sheets.size() > 1) {
            findings.add("the workbook has hidden sheets too: "
                    + names(sheets.stream()
                            .filter(sheet -> !visible.contains(sheet))
                            .toList()));
        }
        return visible.get(0);
    }

    private static String names(List<Sheet> sheets) {
        return sheets.stream().map(sheet -> "'" + sheet.getName() + "'").collect(Collectors.joining(", "));
    }
}
