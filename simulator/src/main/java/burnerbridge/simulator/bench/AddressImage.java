package burnerbridge.simulator.bench;

import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.RegisterImage;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * A unit of which every address exists and tells where it is. Holding register: 1000 × unit + address, of
 * which the lowest 16 bits; input register: 65535 less that; coil: 1 where the address divides by 3;
 * discrete input: 1 where it divides by 2.
 */
final class AddressImage implements RegisterImage {
    static final String TOLD = "holding register: 1000 x unit + address; input register: 65535 less that; "
            + "coil: 1 at every third address; discrete input: 1 at every second; both from address 0 on";
    private static final int ADDRESSES = 65536;

    private final int unit;

    AddressImage(int unit) {
        this.unit = unit;
    }

    @Override
    public Optional<int[]> read(ModbusTable table, int address, int count) {
        return address + count > ADDRESSES
                ? Optional.empty()
                : Optional.of(IntStream.range(address, address + count)
                        .map(at -> value(table, at))
                        .toArray());
    }

    private int value(ModbusTable table, int address) {
        int holding = 1000 * unit + address & 0xFFFF;
        return switch (table) {
            case HOLDING_REGISTER -> holding;
            case INPUT_REGISTER -> 0xFFFF - holding;
            case COIL -> address % 3 == 0 ? 1 : 0;
            case DISCRETE_INPUT -> address % 2 == 0 ? 1 : 0;
        };
    }
}
