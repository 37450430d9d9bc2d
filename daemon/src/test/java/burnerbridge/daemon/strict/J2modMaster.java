package burnerbridge.daemon.strict;

import com.ghgande.j2mod.modbus.ModbusSlaveException;
import com.ghgande.j2mod.modbus.facade.AbstractModbusMaster;
import com.ghgande.j2mod.modbus.procimg.InputRegister;
import com.ghgande.j2mod.modbus.util.BitVector;
import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * The message library's own master, told not to try again in hiding. What it throws is no value; it connects
 * again by itself, or is made to.
 */
final class J2modMaster implements Master {
    /** As the library has it, once is no retry; 0 would be five. */
    private static final int ONCE = 1;

    /** It does not notice that a connection has ended: after so many failures in a row it is given another. */
    private static final int FAILURES = 3;

    private final AbstractModbusMaster master;
    private int failures;
    private String last = "nothing";

    J2modMaster(AbstractModbusMaster master) {
        this.master = master;
    }

    @Override
    public Optional<Taken> ask(Question question) {
        long askedAt = System.nanoTime();
        try {
            if (failures >= FAILURES || !master.isConnected()) {
                master.disconnect();
                master.connect();
            }
            master.setRetries(ONCE);
            int[] values = values(question);
            failures = 0;
            return Optional.of(new Taken(values, askedAt));
        } catch (Exception e) {
            failures = e instanceof ModbusSlaveException ? 0 : failures + 1;
            last = e.toString();
            if (!master.isConnected()) {
                Master.pauseBeforeConnecting();
            }
            return Optional.empty();
        }
    }

    private int[] values(Question asked) throws Exception {
        return switch (asked.table()) {
            case COIL -> bits(master.readCoils(asked.unit(), asked.first(), asked.count()));
            case DISCRETE_INPUT -> bits(master.readInputDiscretes(asked.unit(), asked.first(), asked.count()));
            case INPUT_REGISTER -> words(master.readInputRegisters(asked.unit(), asked.first(), asked.count()));
            case HOLDING_REGISTER -> words(master.readMultipleRegisters(asked.unit(), asked.first(), asked.count()));
        };
    }

    private static int[] words(InputRegister[] registers) {
        return Arrays.stream(registers).mapToInt(InputRegister::getValue).toArray();
    }

    private static int[] bits(BitVector bits) {
        return IntStream.range(0, bits.size()).map(i -> bits.getBit(i) ? 1 : 0).toArray();
    }

    @Override
    public String last() {
        return last;
    }

    @Override
    public void close() {
        master.disconnect();
    }
}
