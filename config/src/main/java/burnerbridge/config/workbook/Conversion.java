package burnerbridge.config.workbook;

import java.util.List;

/**
 * A sheet as CSV.
 *
 * @param csv separated by commas, the header first
 * @param headerRow the sheet's number of the header's row, from 1
 * @param rows how many follow it
 * @param findings what a person should look at, each with its cell or row
 */
public record Conversion(String csv, String sheet, int headerRow, int rows, List<String> findings) {
    public Conversion {
        findings = List.copyOf(findings);
    }
}
