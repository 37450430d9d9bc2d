package burnerbridge.line;

import burnerbridge.model.Registers;

/** Writes over one line, by templates that were fixed when it was made. It belongs to the line's own thread. */
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
     * connection has ended, whoever is behind the next one has to be found out first.
     *
     * @throws IllegalArgumentException as {@link #encode} does; nothing was sent
     */
    WriteOutcome write(WriteTemplate template, Registers data);

    /** How many connections were opened so far; another number is another connection. */
    long connections();
}
