package burnerbridge.simulator.modbus;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Understands requests by functions 5, 6, 15, 16 and 22 in the order of checks of Modbus Application Protocol V1.1b3,
 * clauses 6.5, 6.6, 6.11, 6.12 and 6.16: function, then quantity or value, then addresses.
 */
final class WriteFunctions {
    private static final int SINGLE_COIL = 5;
    private static final int SINGLE_REGISTER = 6;
    private static final int COILS = 15;
    private static final int REGISTERS = 16;
    private static final int MASK = 22;
    private static final int ON = 0xFF00;
    private static final int MOST_COILS = 0x7B0;
    private static final int MOST_REGISTERS = 0x7B;
    /** Function, address, quantity, number of bytes. */
    private static final int AROUND_VALUES = 6;

    private WriteFunctions() {}

    /** Whether a request is by a function that this is about. */
    static boolean has(byte[] request) {
        return switch (request[0] & 0xFF) {
            case SINGLE_COIL, SINGLE_REGISTER, COILS, REGISTERS, MASK -> true;
            default -> false;
        };
    }

    /** What it wants; empty where its length, its quantity or its value cannot be. */
    static Optional<Write> understood(byte[] request) {
        return switch (request[0] & 0xFF) {
            case SINGLE_COIL ->
                when(
                        request.length == 5 && (word(request, 3) == 0 || word(request, 3) == ON),
                        () -> new Write(ModbusTable.COIL, word(request, 1), word(request, 3) == ON ? 1 : 0));
            case SINGLE_REGISTER ->
                when(
                        request.length == 5,
                        () -> new Write(ModbusTable.HOLDING_REGISTER, word(request, 1), word(request, 3)));
            case COILS ->
                when(
                        hasValues(request, MOST_COILS) && (request[5] & 0xFF) == (word(request, 3) + 7) / 8,
                        () -> new Write(ModbusTable.COIL, word(request, 1), bits(request)));
            case REGISTERS ->
                when(
                        hasValues(request, MOST_REGISTERS) && (request[5] & 0xFF) == 2 * word(request, 3),
                        () -> new Write(ModbusTable.HOLDING_REGISTER, word(request, 1), registers(request)));
            case MASK ->
                when(
                        request.length == 7,
                        () -> new Write(
                                ModbusTable.HOLDING_REGISTER,
                                word(request, 1),
                                new int[] {word(request, 5)},
                                word(request, 3)));
            default -> Optional.empty();
        };
    }

    private static Optional<Write> when(boolean sound, java.util.function.Supplier<Write> write) {
        return sound ? Optional.of(write.get()) : Optional.empty();
    }

    private static boolean hasValues(byte[] request, int most) {
        return request.length > AROUND_VALUES
                && request.length == AROUND_VALUES + (request[5] & 0xFF)
                && word(request, 3) >= 1
                && word(request, 3) <= most;
    }

    private static int word(byte[] bytes, int at) {
        return ByteBuffer.wrap(bytes).getShort(at) & 0xFFFF;
    }

    private static int[] bits(byte[] request) {
        return IntStream.range(0, word(request, 3))
                .map(i -> request[AROUND_VALUES + i / 8] >> i % 8 & 1)
                .toArray();
    }

    private static int[] registers(byte[] request) {
        return IntStream.range(0, word(request, 3))
                .map(i -> word(request, AROUND_VALUES + 2 * i))
                .toArray();
    }

    /** The reply to a request that was accepted. */
    static byte[] replyTo(byte[] request) {
        boolean several = request[0] == COILS || request[0] == REGISTERS;
        return several ? Arrays.copyOf(request, 5) : request.clone();
    }
}
