package burnerbridge.simulator.controller;

import burnerbridge.simulator.device.HandMadeClient;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Map;

/** A row of the point list, read over a socket with hand-made bytes and decoded by the row's own words. */
record ListedPoint(Map<String, String> row) {
    private static final int HEADER_AND_COUNT = 9;

    String name() {
        return cell("name");
    }

    boolean isBit() {
        return cell("format").startsWith("bit");
    }

    boolean hasStates() {
        return !cell("states").isEmpty();
    }

    /** How far the register may be from the plant: half a step, or what a binary32 cannot tell. */
    double tolerance(double value) {
        return cell("format").equals("float32") ? Math.abs(value) * 1e-6 + 1e-9 : scale() / 2 + 1e-9;
    }

    /** The text of a state, or the number. */
    Object read(HandMadeClient client, int unit) throws IOException {
        byte[] data = data(client, unit);
        double raw = raw(data);
        if (hasStates()) {
            return stateText((long) raw);
        }
        return isBit() ? raw : raw * scale() + number("offset", 0);
    }

    private double raw(byte[] data) {
        ByteBuffer words = ByteBuffer.wrap(data);
        String format = cell("format");
        return switch (format) {
            case "bit" -> data[0] & 1;
            case "uint16" -> words.getShort() & 0xFFFF;
            case "int16" -> words.getShort();
            case "float32" ->
                cell("order").equals("low-word-first")
                        ? Float.intBitsToFloat((words.getShort() & 0xFFFF) | words.getShort() << 16)
                        : words.getFloat();
            default -> words.getShort() >> bitNumber(format) & 1;
        };
    }

    /** The bytes behind the byte count of a reply, whose other fields must be as they should. */
    private byte[] data(HandMadeClient client, int unit) throws IOException {
        int function = function();
        int count = cell("format").equals("float32") ? 2 : 1;
        int bytes = function <= 2 ? 1 : 2 * count;
        // The list counts from 1, the wire from 0.
        int wire = Integer.parseInt(cell("address")) - 1;
        String reply =
                client.ask(hex("002A00000006%02X%02X%04X%04X", unit, function, wire, count), HEADER_AND_COUNT + bytes);
        String head = hex("002A0000%04X%02X%02X%02X", 3 + bytes, unit, function, bytes);
        if (!reply.startsWith(head)) {
            throw new AssertionError(name() + ": reply should begin with " + head + ": " + reply);
        }
        return HexFormat.of().parseHex(reply.substring(head.length()));
    }

    private int function() {
        return switch (cell("table")) {
            case "coil" -> 1;
            case "discrete-input" -> 2;
            case "holding-register" -> 3;
            case "input-register" -> 4;
            default -> throw new AssertionError(name() + ": table " + cell("table"));
        };
    }

    private String stateText(long number) {
        return Arrays.stream(cell("states").split("\\|"))
                .map(state -> state.split("=", 2))
                .filter(state -> Long.parseLong(state[0]) == number)
                .map(state -> state[1])
                .findFirst()
                .orElseThrow(() -> new AssertionError(name() + ": no state " + number));
    }

    private double scale() {
        return number("scale", 1);
    }

    private double number(String column, double otherwise) {
        return cell(column).isEmpty() ? otherwise : Double.parseDouble(cell(column));
    }

    private String cell(String column) {
        String cell = row.get(column);
        if (cell == null) {
            throw new AssertionError("no column " + column);
        }
        return cell;
    }

    private static int bitNumber(String format) {
        return Integer.parseInt(format.substring("bit:".length()));
    }

    private static String hex(String form, Object... values) {
        return String.format(Locale.ROOT, form, values);
    }
}
