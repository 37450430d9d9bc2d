package burnerbridge.daemon.strict;

import burnerbridge.line.ReadTerms;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.RegisterImage;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.IntStream;

/**
 * A unit whose every value tells where and when it is from. A register has the generation, of which 256 are
 * apart, in its high byte, and in its low byte the unit, the table and the address, of which there are no
 * more than fit: so even a single register that is late, shifted or of another unit is never the right one.
 * A bit is one of a hash of all of that, so that 48 of them are alike by chance once in 2^48.
 */
final class CodedUnit implements RegisterImage {
    /** There are so many registers from address 0 on, and again from {@link #UPPER} on. */
    static final int REGISTERS = 32;
    /** Its high byte is the byte count of a reply of one register, so that an echo looks like one. */
    static final int UPPER = 0x0200;

    private static final int BITS = 256;

    /**
     * How far reads may reach that are longer than there are registers apart: those tell by their generation
     * whether they are late, and by their addresses only up to a multiple of that number.
     */
    private static final int REACH = 160;

    private final int unit;
    private final AtomicLong generation;

    /** @param unit 1 or 2 */
    CodedUnit(int unit, AtomicLong generation) {
        this.unit = unit;
        this.generation = generation;
    }

    @Override
    public Optional<int[]> read(ModbusTable table, int address, int count) {
        int start = address < UPPER ? address : address - UPPER;
        int reach = count > REGISTERS ? REACH : REGISTERS;
        if (start + count > (table.holdsBits() ? BITS : reach)) {
            return Optional.empty();
        }
        return Optional.of(values(new Question(unit, table, address, count, ReadTerms.USUAL), generation.get()));
    }

    /** What the right reply to a question holds in a generation. */
    static int[] values(Question question, long generation) {
        return IntStream.range(question.first(), question.first() + question.count())
                .map(address -> question.table().holdsBits()
                        ? bit(question, address, generation)
                        : register(question, address, generation))
                .toArray();
    }

    private static int register(Question question, int address, long generation) {
        int upper = address < UPPER ? 0 : 1;
        int input = question.table() == ModbusTable.INPUT_REGISTER ? 1 : 0;
        int where = (question.unit() - 1) << 7 | input << 6 | upper << 5 | address % REGISTERS;
        return (int) (generation & 0xFF) << 8 | where;
    }

    private static int bit(Question question, int address, long generation) {
        long seed = ((generation * 8 + question.table().readFunction()) * 4 + question.unit()) * 65536 + address;
        // The finalizer of a well-known generator: every bit of the seed moves every bit of the result.
        long mixed = (seed ^ seed >>> 30) * 0xBF58476D1CE4E5B9L;
        mixed = (mixed ^ mixed >>> 27) * 0x94D049BB133111EBL;
        return (int) (mixed >>> 63);
    }
}
