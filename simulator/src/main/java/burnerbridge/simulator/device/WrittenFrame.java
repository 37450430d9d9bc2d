package burnerbridge.simulator.device;

import java.util.HexFormat;

/**
 * A frame that came and was no read: of any function but 1 to 4, to any unit, whether it was accepted or not.
 *
 * @param nanos when it had come, on the clock of {@link System#nanoTime}
 * @param unit the identifier that it was for
 * @param bytes all of it as it travelled
 * @param done whether the unit did what it wants, by now
 */
@SuppressWarnings("ArrayRecordComponent") // frames are never compared
public record WrittenFrame(long nanos, int unit, byte[] bytes, boolean done) {

    /** The bytes in hexadecimal, with a word on what became of them. */
    @Override
    public String toString() {
        return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes) + (done ? ": done" : ": not done");
    }
}
