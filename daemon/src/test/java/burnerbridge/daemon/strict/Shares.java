package burnerbridge.daemon.strict;

import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Misbehaviour;
import burnerbridge.simulator.manners.Mixture;
import burnerbridge.simulator.manners.Mixture.Share;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * What the stream is made of: everything that makes sense on a transport but for what no master could tell.
 * That is, on every transport, values that are wrong in a right frame ({@link Misbehaviour#ZEROS}, {@link
 * Misbehaviour#TORN_PAIRS}); and on RTU, whose replies do not say which request they answer, one of the
 * right unit, function and length that comes in the time of the right one and that nobody asked for, or that
 * comes out of order, or later than the transport remembers. So a second master asks for lengths that the
 * stream never asks for ({@link Question}), and no reply is late by five reply time-outs.
 */
final class Shares {
    /**
     * No reply begins later than so many reply time-outs after its request. The transport remembers for five;
     * between the two lies what a busy machine adds.
     */
    static final int LATEST = 2;

    /** What costs a reply time-out is rarer. */
    private static final int RARE = 2;

    private static final int OFTEN = 4;
    private static final int WELL = 70;

    /** What the values themselves are. */
    private static final Set<Misbehaviour> CONTENTS = Set.of(Misbehaviour.ZEROS, Misbehaviour.TORN_PAIRS);

    private Shares() {}

    static Mixture mixture(long seed, Transport transport, Duration timeout) {
        List<Share> shares = Stream.of(Misbehaviour.values())
                .filter(what -> what.makesSenseOn(transport) && !CONTENTS.contains(what))
                .map(what -> share(what, (int) timeout.toMillis()))
                .toList();
        return new Mixture(seed, WELL, shares, timeout.multipliedBy(LATEST));
    }

    /** Late replies of a device that is slow by its wire, and whose connections end before they come. */
    static Mixture late(long seed, Transport transport, Duration timeout) {
        int latest = LATEST * (int) timeout.toMillis();
        List<Share> shares = Stream.of(
                        Share.of(Misbehaviour.SILENT, WELL / 3),
                        new Share(Misbehaviour.LATE, WELL / 6, 1, latest, 1),
                        new Share(Misbehaviour.HANG_UP_THEN_REPLY, WELL / 2, 1, latest, 1))
                .filter(share -> share.what().makesSenseOn(transport))
                .toList();
        return new Mixture(seed, WELL, shares, timeout.multipliedBy(LATEST));
    }

    private static Share share(Misbehaviour what, int timeout) {
        return switch (what) {
            case SILENT, CUT_OFF, WRONG_LENGTH -> Share.of(what, RARE);
            case LATE -> new Share(what, OFTEN, timeout / 4, LATEST * timeout, 1);
            case ONE_BEHIND -> new Share(what, OFTEN, 2, 4, 1);
            case DRIBBLED -> new Share(what, RARE, 0, 3, 1);
            case EXCEPTION -> new Share(what, OFTEN, 1, 11, 1);
            case BUSY, ACKNOWLEDGE -> new Share(what, RARE, 0, 0, 3);
            case SMALL_BLOCKS -> new Share(what, RARE, 1, 4, 3);
            case REFUSE -> new Share(what, 1, 10, 2 * timeout, 1);
            case HANG_UP_THEN_REPLY -> new Share(what, OFTEN, 1, 2 * timeout, 1);
            default -> Share.of(what, OFTEN);
        };
    }
}
