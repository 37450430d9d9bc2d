package burnerbridge.config.workbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.outside.OutsideProgram;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Workbooks that another library wrote, in another language. */
class WorkbookIT {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private static Path folder;

    @BeforeAll
    static void write() throws Exception {
        OutsideProgram.requirePython("openpyxl", "python3-openpyxl");
        Path script = OutsideProgram.file("workbooks.py");
        assertThat(OutsideProgram.output(List.of(OutsideProgram.PYTHON, script.toString(), folder.toString())))
                .isEmpty();
    }

    private static Conversion convert(String file, String sheet, int headerRow) throws WorkbookException {
        return Workbook.convert(
                folder.resolve(file),
                sheet.isEmpty() ? Optional.empty() : Optional.of(sheet),
                headerRow == 0 ? OptionalInt.empty() : OptionalInt.of(headerRow));
    }

    @Test
    void cellsAreAsTheyWereTyped() throws Exception {
        Conversion made = convert("typed.xlsx", "", 0);
        assertThat(made.csv())
                .isEqualTo("name,description,table,address,format,role,scale,unit,states,note-page\n"
                        + "water,\"Boiler, \"\"hot\"\" side\",holding-register,40001,int16,measurement,0.1,\u00B0C,,12\n"
                        + "gas,\"two\nlines\",input-register,30002,uint16,measurement,0.3,%,,\n"
                        + "phase,'=1+1,input-register,30003,uint16,status,,,'-1=fault|0=ok,12.5\n");
        assertThat(made.sheet()).isEqualTo("Points");
        assertThat(made.headerRow()).isEqualTo(3);
        assertThat(made.rows()).isEqualTo(3);
        assertThat(made.findings()).containsExactly("1 row above the header left out");
    }

    @Test
    void whatASpreadsheetHasProbablyChangedIsTold() throws Exception {
        assertThat(convert("troubled.xlsx", "", 0).findings())
                .containsExactly(
                        "the workbook has hidden sheets too: 'Old'",
                        "1 row above the header left out",
                        "cells B7:B9 are merged; only the first of them holds anything",
                        "column H, unit, is hidden; it was taken all the same",
                        "cell G4 holds the date 2026-01-03, which was probably typed as a number such as 3.1 or 1-2",
                        "cell J4 is shown as a percentage; its value is 0.5",
                        "cell G5 holds the truth value TRUE, which was probably typed as a word",
                        "cell J5 is a formula without a value; open the workbook, let it calculate, and save it",
                        "row 5 is hidden; it was taken all the same",
                        "row 5 has a cell right of the header's last column",
                        "cell G6 is a formula without a value; open the workbook, let it calculate, and save it",
                        "cell J6 holds the date 1899-12-31 03:01, which was probably typed as a number such as 3.1 or"
                                + " 1-2");
    }

    @Test
    void oneOfSeveralSheetsMustBeNamed() throws Exception {
        assertThatThrownBy(() -> convert("several.xlsx", "", 0))
                .hasMessage("has 3 sheets; say which one with --sheet: 'Cover', 'Hot water', 'Foreign'");
        assertThatThrownBy(() -> convert("several.xlsx", "hot water", 0))
                .hasMessage("has no sheet 'hot water'; it has 'Cover', 'Hot water', 'Foreign'");
        assertThat(convert("several.xlsx", "Hot water", 0).rows()).isEqualTo(3);
        assertThatThrownBy(() -> convert("several.xlsx", "Foreign", 0))
                .hasMessageStartingWith("sheet 'Foreign' has no row with the column names address, name, table;");
        assertThat(convert("several.xlsx", "Foreign", 1).csv()).isEqualTo("tag,register\na,1\n");
        assertThatThrownBy(() -> convert("several.xlsx", "Foreign", 9))
                .hasMessage("sheet 'Foreign' has no text in row 9");
        assertThatThrownBy(() -> convert("several.xlsx", "Cover", 0)).hasMessageContaining("has no row");
    }
}
