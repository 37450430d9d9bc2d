package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.RtuOverTcp;
import burnerbridge.site.LineDefinition.Serial;
import burnerbridge.site.RegisterTable;
import java.time.Duration;

/**
 * How long a transaction keeps one line busy: so much for each, and so much for each byte of data that it
 * brings, which is two a register and one for every eight bits begun.
 *
 * <p>RTU frames are 8 characters out and 5 and the data back (MODBUS over Serial Line V1.02, 2.5.1), with a
 * silence of 3.5 characters after each, above 19,200 baud of 1.75 ms (2.5.1.1). Over TCP it is a constant that
 * was measured on loopback. What the controller needs to think, its turnaround, comes on top. Times are in
 * nanoseconds, each of the parts rounded by itself, so that equal reads cost the same to the last digit.
 *
 * @param exchange of a transaction without data, from its first character to the last, silences left out
 * @param silence after a frame; there are two
 * @param dataByte of one byte of data
 */
public record CostModel(long exchange, long silence, long dataByte) {
    /** Without data: address, function, count or byte count, checksum. */
    private static final int CHARACTERS = 13;

    /** As the transport reckons where nobody knows whether there is a parity bit. */
    private static final int BITS_BEHIND_TCP = 11;

    private static final int FASTEST_WITH_CHARACTERS = 19_200;
    private static final long FIXED_SILENCE = 1_750_000;
    private static final long SECOND = 1_000_000_000;
    private static final CostModel TCP = new CostModel(20_000, 0, 10);

    public static CostModel of(LineDefinition line) {
        LineDefinition.Endpoint endpoint = line.endpoint();
        if (endpoint instanceof Serial serial) {
            return rtu(serial.baud(), serial.bitsPerCharacter());
        }
        return endpoint instanceof RtuOverTcp rtu ? rtu(rtu.baud(), BITS_BEHIND_TCP) : TCP;
    }

    private static CostModel rtu(int baud, int bits) {
        long silence = baud > FASTEST_WITH_CHARACTERS ? FIXED_SILENCE : over(35L * bits * SECOND, 10L * baud);
        return new CostModel(over(CHARACTERS * bits * SECOND, baud), silence, over(bits * SECOND, baud));
    }

    private static long over(long dividend, long divisor) {
        return (dividend + divisor / 2) / divisor;
    }

    /** The bus time of one transaction. */
    public Duration of(ReadRequest request, Duration turnaround) {
        return Duration.ofNanos(of(request.table(), request.count(), turnaround.toNanos()));
    }

    /** The bus time of a read with all its transactions, if nothing changes between them. */
    public Duration of(ReadBlock block, Duration turnaround) {
        ReadRequest one = block.requests().get(0);
        return of(one, turnaround).multipliedBy(block.transactions());
    }

    /** The bus time of one transaction for so many addresses of a table, in nanoseconds. */
    long of(RegisterTable table, int count, long turnaround) {
        return exchange + 2 * silence + turnaround + dataByte * bytes(table, count);
    }

    /**
     * What of a transaction lies between the moment at which its request leaves and the last character of its
     * reply, were the controller to answer at once: all but the silence before the next request.
     */
    Duration exchange(ReadRequest request) {
        return Duration.ofNanos(exchange + silence + dataByte * bytes(request.table(), request.count()));
    }

    private static int bytes(RegisterTable table, int count) {
        return table.ofBits() ? (count + 7) / 8 : 2 * count;
    }
}
