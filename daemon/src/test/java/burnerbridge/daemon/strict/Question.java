package burnerbridge.daemon.strict;

import burnerbridge.line.ReadTerms;
import burnerbridge.simulator.modbus.ModbusTable;
import java.time.Duration;
import java.util.Random;

/** One read, as the stream has it. */
record Question(int unit, ModbusTable table, int first, int count, ReadTerms terms) {
    /**
     * Few shapes, so that a reply to one question often has the shape of the reply to the next; none of 3, 5,
     * 7 or 9, which are those of the second master, nor of as many bytes of bits.
     */
    private static final int[] REGISTERS = {1, 1, 2, 4, 4, 20};

    /** Long enough that bits tell where and when they are from. */
    private static final int[] BITS = {48, 48, 100};

    /** Long enough to be on a slow wire for much longer than a reply may be late. */
    private static final int[] MANY_REGISTERS = {100, 100, 100, 100, 125};

    private static final int LONGEST_PAUSE_MILLIS = 10;

    /** Of many registers, nearly always of one shape. */
    static Question randomLong(Random dice) {
        int count = MANY_REGISTERS[dice.nextInt(MANY_REGISTERS.length)];
        int first = (dice.nextBoolean() ? CodedUnit.UPPER : 0) + dice.nextInt(CodedUnit.REGISTERS);
        return new Question(1, ModbusTable.HOLDING_REGISTER, first, count, terms(dice));
    }

    /** What is asked once, or where any unit may reply, waits for late replies, so that it is rarer. */
    private static ReadTerms terms(Random dice) {
        boolean anyReplyUnit = dice.nextInt(12) == 0;
        boolean once = dice.nextInt(24) == 0;
        int pause = dice.nextInt(8) == 0 ? 1 + dice.nextInt(LONGEST_PAUSE_MILLIS) : 0;
        return new ReadTerms(anyReplyUnit, once, Duration.ofMillis(pause));
    }

    static Question random(Random dice) {
        int unit = dice.nextInt(4) == 0 ? 2 : 1;
        ModbusTable table = switch (dice.nextInt(8)) {
            case 0 -> ModbusTable.COIL;
            case 1 -> ModbusTable.DISCRETE_INPUT;
            case 2, 3 -> ModbusTable.INPUT_REGISTER;
            default -> ModbusTable.HOLDING_REGISTER;
        };
        int[] counts = table.holdsBits() ? BITS : REGISTERS;
        int count = counts[dice.nextInt(counts.length)];
        int start =
                table.holdsBits() ? 0 : dice.nextInt(CodedUnit.REGISTERS - Math.min(count, CodedUnit.REGISTERS) + 1);
        return new Question(unit, table, (dice.nextBoolean() ? CodedUnit.UPPER : 0) + start, count, terms(dice));
    }

    @Override
    public String toString() {
        return "unit " + unit + " " + table + " " + first + " x " + count
                + (terms.equals(ReadTerms.USUAL) ? "" : ", " + terms);
    }
}
