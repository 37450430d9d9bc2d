package burnerbridge.line.frame;

/** The checksum of RTU frames (MODBUS over Serial Line V1.02, 6.2.2). */
final class Crc16 {
    private static final int START = 0xFFFF;
    private static final int POLYNOMIAL = 0xA001;
    static final int BYTES = 2;

    private Crc16() {}

    /** The checksum of {@code length} bytes from {@code from} on; its low byte is sent first. */
    static int of(byte[] bytes, int from, int length) {
        int crc = START;
        for (int i = from; i < from + length; i++) {
            crc ^= bytes[i] & 0xFF;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 1) == 0 ? crc >> 1 : crc >> 1 ^ POLYNOMIAL;
            }
        }
        return crc;
    }

    /** Whether the last two of {@code length} bytes from {@code from} on are the checksum of the others. */
    static boolean holds(byte[] bytes, int from, int length) {
        int end = from + length - BYTES;
        int crc = of(bytes, from, length - BYTES);
        return (bytes[end] & 0xFF) == (crc & 0xFF) && (bytes[end + 1] & 0xFF) == crc >> 8;
    }
}
