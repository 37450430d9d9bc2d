package burnerbridge.simulator.registers;

import burnerbridge.simulator.modbus.ModbusTable;

/**
 * How a value lies in registers, in the words of the register tables:
 *
 * <ul>
 *   <li>{@code u16 s16 u32 s32 u64}: whole numbers, two's complement; {@code sm16}: sign and magnitude;
 *       {@code bcd16 bcd32}: a decimal digit in four bits; {@code dec2 dec3}: four decimal digits a register;
 *       {@code f32 f64}: IEEE 754;
 *   <li>{@code high8 low8}: a byte of a register; {@code bit3}, {@code bits5-8}: bits of it;
 *       {@code bit}: a coil or discrete input;
 *   <li>{@code u32.high u32.low}: one of the two words of a number, which are apart;
 *   <li>{@code text8}: two characters a register;
 *   <li>{@code epoch}: seconds since 1970, two registers; {@code year month-day hour-minute second}: a part of
 *       the local time, one byte a field, the year in a whole register; with {@code .bcd} in decimal digits.
 * </ul>
 *
 * <p>Behind it may stand {@code /low-first}, the least significant word first, and {@code /swapped}, the bytes
 * of each word exchanged.
 */
interface Form {

    /** How many registers it takes. */
    int words();

    /** Writes a value. */
    void write(Cells cells, ModbusTable table, int address, Shown value);
}
