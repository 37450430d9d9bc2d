package burnerbridge.simulator.registers;

import burnerbridge.simulator.modbus.ModbusTable;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The register table of a kind of controller. */
public final class RegisterTable {
    private final List<Row> rows;
    private final int longest;

    /**
     * @param rows all that it shows
     * @param longest how many registers it answers in one read
     */
    RegisterTable(List<Row> rows, int longest) {
        this.rows = List.copyOf(rows);
        this.longest = longest;
    }

    /**
     * One of those that are shipped: {@code hot-water}, {@code hot-water-old}, {@code steam}.
     *
     * @throws IllegalArgumentException where it is not there, or a line of it is not understood
     */
    public static RegisterTable shipped(String name) {
        String file = name + ".registers.txt";
        try (InputStream in = RegisterTable.class.getResourceAsStream(file)) {
            if (in == null) {
                throw new IllegalArgumentException("there is no " + file);
            }
            return TableReader.read(
                    file,
                    new String(in.readAllBytes(), StandardCharsets.UTF_8)
                            .lines()
                            .toList());
        } catch (IOException e) {
            throw new UncheckedIOException(file, e);
        }
    }

    List<Row> rows() {
        return rows;
    }

    int longest() {
        return longest;
    }

    /** The row at an address by which a boiler is told something; empty where there is none. */
    Optional<Row> toldAt(ModbusTable table, int address) {
        return rows.stream().filter(row -> row.isToldAt(table, address)).findFirst();
    }

    /** The tables that exist at all. */
    Set<ModbusTable> tables() {
        Set<ModbusTable> tables = EnumSet.noneOf(ModbusTable.class);
        rows.forEach(row -> tables.addAll(row.tables()));
        return tables;
    }
}
