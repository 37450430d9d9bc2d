package burnerbridge.config.workbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.Seed;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Workbooks put together by hand: those that are small and right, and those that nobody should open. */
class WorkbookTest {
    private static final String HEADER = "<row r='1'><c r='A1' t='s'><v>0</v></c><c r='B1' t='s'><v>1</v></c>"
            + "<c r='C1' t='inlineStr'><is><t>address</t></is></c></row>";
    private static final String ROW =
            "<row r='2'><c r='A2' t='str'><f>\"wa\"&amp;\"ter\"</f><v>water</v></c><c r='C2'><v>40001</v></c></row>";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private static Map<String, String> parts(String sheetData) {
        Map<String, String> parts = new LinkedHashMap<>();
        parts.put(
                "[Content_Types].xml",
                "<Types><Override PartName='/xl/workbook.xml' ContentType='application/"
                        + "vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml'/><Override"
                        + " PartName='/xl/sharedStrings.xml' ContentType='application/"
                        + "vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml'/></Types>");
        parts.put(
                "xl/workbook.xml",
                "<workbook xmlns:r='http://schemas.openxmlformats.org/officeDocument/2006/"
                        + "relationships'><sheets><sheet name='A' sheetId='1' r:id='r1'/></sheets></workbook>");
        parts.put(
                "xl/_rels/workbook.xml.rels",
                "<Relationships><Relationship Id='r1' Target='worksheets/sheet1.xml'/>" + "</Relationships>");
        parts.put("xl/sharedStrings.xml", "<sst><si><t>name</t></si><si><t>ta</t><r><t>ble</t></r></si></sst>");
        parts.put("xl/worksheets/sheet1.xml", "<worksheet><sheetData>" + sheetData + "</sheetData></worksheet>");
        return parts;
    }

    private Path write(Map<String, String> parts) throws IOException {
        Path file = folder.resolve("list.xlsx");
        try (OutputStream out = Files.newOutputStream(file);
                ZipOutputStream zip = new ZipOutputStream(out)) {
            for (Map.Entry<String, String> part : parts.entrySet()) {
                zip.putNextEntry(new ZipEntry(part.getKey()));
                zip.write(part.getValue().getBytes(StandardCharsets.UTF_8));
                zip.closeEntry();
            }
        }
        return file;
    }

    private static Conversion convert(Path file) throws WorkbookException {
        return Workbook.convert(file, Optional.empty(), OptionalInt.empty());
    }

    private void assertRefused(Map<String, String> parts, String expected) throws IOException {
        Path file = write(parts);
        assertThatThrownBy(() -> convert(file))
                .isInstanceOf(WorkbookException.class)
                .hasMessageContaining(expected);
    }

    @Test
    void sharedInlineAndCalculatedTextsAreRead() throws Exception {
        Conversion made = convert(write(parts(HEADER + ROW)));
        assertThat(made.csv()).isEqualTo("name,table,address\nwater,,40001\n");
        assertThat(made.findings()).isEmpty();
    }

    @Test
    void aWorkbookThatUnpacksWithoutEndIsRefused() throws Exception {
        Map<String, String> parts = parts(HEADER + ROW);
        parts.put("xl/theme.xml", "<a>" + " ".repeat(49 << 20) + "</a>");
        assertRefused(parts, "unpacks to more than 48 MiB");
        assertThat(Files.size(folder.resolve("list.xlsx"))).isLessThan(200_000);
    }

    @Test
    void whatWouldKeepTheLibraryBusyIsRefused() throws Exception {
        assertRefused(
                parts(HEADER + "<row r='2'><c r='A2' t='s'><v>2000000000</v></c></row>"), "is broken: a cell has text");
        assertRefused(
                parts(HEADER + "<row r='2'><c r='A2' t='s'><v>2</v></c></row>"), "is broken: a cell has text 2 of 2");
        assertRefused(
                parts(HEADER + "<row r='2'><c r='ZZZZZZ2'><v>1</v></c></row>"),
                "is broken: a cell is called 'ZZZZZZ2'");
        assertRefused(
                parts(HEADER + "<row r='2'><c r='XFD2'><v>1</v></c></row>"), "has a cell past column 1024 (XFD2)");
        assertRefused(parts(HEADER + "<row/>".repeat(50_001)), "has more than 50000 rows");
    }

    @Test
    void entitiesAreNotExpandedNorFetched() throws Exception {
        Map<String, String> parts = parts(HEADER + ROW);
        parts.put(
                "xl/sharedStrings.xml",
                "<!DOCTYPE x [<!ENTITY e SYSTEM 'file:///etc/hostname'>]><sst><si><t>&e;</t></si><si><t>b</t></si></sst>");
        assertRefused(parts, "broken");
    }

    @Test
    void filesOfOtherKindsAreNamed() throws Exception {
        Path file = folder.resolve("x.xlsx");
        assertThatThrownBy(() -> convert(file)).hasMessage("is not a file");
        Files.write(file, new byte[] {(byte) 0xD0, (byte) 0xCF, 0x11, (byte) 0xE0, 0, 0});
        assertThatThrownBy(() -> convert(file)).hasMessageContaining("old .xls, or locked with a password");
        Files.writeString(file, "name,table,address\n");
        assertThatThrownBy(() -> convert(file)).hasMessageContaining("is no .xlsx, or a broken one");
        Files.write(file, new byte[0]);
        assertThatThrownBy(() -> convert(file)).hasMessageContaining("is no .xlsx, or a broken one");
        assertRefused(Map.of("content.xml", "<a/>"), "is a workbook of another kind");
        assertRefused(Map.of("other.xml", "<a/>"), "is no .xlsx, or a broken one");
    }

    /** Bytes changed at random: a workbook, or a sentence; never anything else. */
    @Test
    void aDamagedWorkbookLeadsToASentence() throws Exception {
        long seed = Seed.value();
        System.out.println("seed " + seed);
        Random random = new Random(seed);
        Map<String, String> sound = parts(HEADER + ROW);
        int refused = 0;
        for (int i = 0; i < 2000; i++) {
            Map<String, String> parts = new LinkedHashMap<>(sound);
            String name = sound.keySet().stream()
                    .skip(random.nextInt(sound.size()))
                    .findFirst()
                    .orElseThrow();
            StringBuilder text = new StringBuilder(sound.getOrDefault(name, ""));
            for (int n = 0; n <= random.nextInt(3); n++) {
                int at = random.nextInt(text.length());
                text.replace(at, at + random.nextInt(2), String.valueOf("<>'\"/=0 9rsX".charAt(random.nextInt(12))));
            }
            parts.put(name, text.toString());
            try {
                assertThat(convert(write(parts)).csv()).as("seed " + seed).isNotNull();
            } catch (WorkbookException e) {
                refused++;
                assertThat(e.getMessage()).as("seed " + seed).isNotEmpty();
            }
        }
        assertThat(refused).isBetween(1, 1999);
    }
}
