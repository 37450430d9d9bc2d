package burnerbridge.line;

/** The last check before bytes leave: whatever made the frame, only reading functions pass. */
final class ReadFunctions {
    private ReadFunctions() {}

    /**
     * @param frame a whole frame
     * @param functionAt where its function code stands
     * @throws IllegalStateException for any function but 1 to 4; the frame must not be sent
     */
    static byte[] require(byte[] frame, int functionAt) {
        int function = frame[functionAt] & 0xFF;
        if (function < 1 || function > 4) {
            throw new IllegalStateException(
                    "only functions 1 to 4 leave a line (was function " + function + "); nothing was sent");
        }
        return frame;
    }
}
