package burnerbridge.line;

import burnerbridge.model.Registers;

/**
 * Writes over one line, by templates that were fixed when it was made. It belongs to the line's own thread, but for
 * {@link #encode} and {@link #connections}, which are for any.
 */
public interface LineWrites {

    /**
     * Unit, function code and data as a write would send them, without what its framing puts around. Nothing is sent.
     *
     * @param data the registers of the template, or bits as words of 0 and 1; for function 22 the register as its bits
     *     shall be, of which those outside the mask are not looked at
     * @throws IllegalArgumentException where the template is not one of the line's, or the data does not fit it
     */
    byte[] encode(WriteTemplate template, Registers data);

    /**
     * Sends one write over the connection that is open, once, and awaits its reply. It connects nothing: where the
     * connection has ended, whoever is behind the next one has to be found out first. Asked before
     * {@link #readyAt}, it waits.
     *
     * <p>What an outcome rests upon: a reply matches in unit, function, address and value or count, and over TCP in its
     * transaction, so that there it answers this write. RTU frames have no transaction; there a reply answers this
     * write as long as a unit answers in order and within the time that {@link #readyAt} waits out. With functions 5, 6
     * and 22 a line that echoes what it hears looks like a unit that replied. So an accepted write is written only when
     * its registers were read back.
     *
     * @throws IllegalArgumentException as {@link #encode} does; nothing was sent
     */
    WriteOutcome write(WriteTemplate template, Registers data);

    /**
     * The tick from which a write may be sent: after {@code now} while its unit wants its pause, and while the reply to
     * an earlier write of the same function could come late and be taken for its own.
     *
     * @throws IllegalArgumentException where the template is not one of the line's
     */
    long readyAt(WriteTemplate template, long now);

    /** Whether a connection is open, as far as is known without sending anything; a read opens one. */
    boolean isConnected();

    /** How many connections were opened so far; another number is another connection. */
    long connections();
}
