package burnerbridge.simulator.bench;

import burnerbridge.simulator.modbus.AcceptingImage.Accepted;
import burnerbridge.simulator.modbus.ModbusTable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Understands which addresses can be written: {@code coil:16}, {@code holding-register:40-49}. */
final class Tables {
    private static final Pattern RUN = Pattern.compile("([a-z-]+):(\\d{1,5})(?:-(\\d{1,5}))?");

    private Tables() {}

    /** @throws NotUnderstood where it is none that can be written */
    static ModbusTable called(String word) throws NotUnderstood {
        return switch (word) {
            case "coil" -> ModbusTable.COIL;
            case "holding-register" -> ModbusTable.HOLDING_REGISTER;
            default -> throw new NotUnderstood("a table is coil or holding-register (was " + word + ")");
        };
    }

    /** @throws NotUnderstood with a sentence for people */
    static Accepted accepted(String text) throws NotUnderstood {
        Matcher run = RUN.matcher(text);
        if (!run.matches()) {
            throw new NotUnderstood("coil:16 or holding-register:40-49 is wanted (was " + text + ")");
        }
        int first = Integer.parseInt(run.group(2));
        int last = run.group(3) == null ? first : Integer.parseInt(run.group(3));
        try {
            return new Accepted(called(run.group(1)), first, last);
        } catch (IllegalArgumentException e) {
            throw new NotUnderstood(String.valueOf(e.getMessage()));
        }
    }
}
