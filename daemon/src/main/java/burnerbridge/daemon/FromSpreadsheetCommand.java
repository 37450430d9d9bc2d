package burnerbridge.daemon;

import burnerbridge.config.workbook.Conversion;
import burnerbridge.config.workbook.Workbook;
import burnerbridge.config.workbook.WorkbookException;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Makes a point list in CSV of a workbook. */
@Command(
        name = "from-spreadsheet",
        mixinStandardHelpOptions = true,
        description = "Makes a point list in CSV of a sheet of an .xlsx, with what was typed into its cells, and tells"
                + " what a spreadsheet has probably changed. Shows it, or writes it with --out.")
final class FromSpreadsheetCommand implements Callable<Integer> {

    @Parameters(index = "0", paramLabel = "LIST.xlsx", description = "The workbook.")
    private Path workbook = Path.of("");

    @Option(names = "--sheet", paramLabel = "NAME", description = "Which sheet, where there are several.")
    private @Nullable String sheet;

    @Option(
            names = "--header-row",
            paramLabel = "N",
            description = "The row with the column names, where it is not the first one with name, table and address.")
    private @Nullable Integer headerRow;

    @Option(names = "--out", paramLabel = "FILE", description = "Where to write it, such as points/steam.csv.")
    private @Nullable Path target;

    @Option(names = "--overwrite", description = "Write over a file that is there.")
    private boolean overwrite;

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Override
    public Integer call() {
        PrintWriter err = spec.commandLine().getErr();
        if (target != null && Files.exists(target) && !overwrite) {
            err.println("error: " + target + " is there already; --overwrite writes over it");
            return ExitCode.BAD_INPUT;
        }
        try {
            Conversion made = Workbook.convert(
                    workbook,
                    Optional.ofNullable(sheet),
                    headerRow == null ? OptionalInt.empty() : OptionalInt.of(headerRow));
            write(made.csv());
            made.findings().forEach(finding -> err.println("look at: " + finding));
            err.println("Sheet '" + made.sheet() + "': header in row " + made.headerRow() + ", " + made.rows()
                    + (made.rows() == 1 ? " row" : " rows") + (target == null ? "." : " written to " + target + "."));
            return made.findings().isEmpty() ? ExitCode.FINE : ExitCode.WARNINGS;
        } catch (WorkbookException e) {
            err.println("error: " + workbook + " " + e.getMessage());
            return ExitCode.BAD_INPUT;
        } catch (IOException e) {
            err.println("error: " + target + " cannot be written (" + e.getMessage() + ")");
            return ExitCode.COULD_NOT_REACH;
        }
    }

    private void write(String csv) throws IOException {
        if (target == null) {
            spec.commandLine().getOut().print(csv);
            spec.commandLine().getOut().flush();
        } else {
            Files.writeString(target, csv);
        }
    }
}
