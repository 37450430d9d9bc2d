package burnerbridge.simulator.manners;

import burnerbridge.simulator.frame.Transport;
import java.time.Duration;
import java.util.Optional;
import java.util.Random;

/** The ways to misbehave: on which transports each makes sense, what it is told, and how it is done. */
@SuppressWarnings("ImmutableEnumChecker") // what makes manners keeps nothing
public enum Misbehaviour implements Kind {
    SILENT(On.ANY, "no reply", (n, dice) -> Timing.silent()),
    LATE(On.ANY, Argument.millis(), "the reply so long after its request", (n, dice) -> Timing.late(n)),
    ONE_BEHIND(
            On.ANY,
            new Argument("requests", 2, 1000),
            "each reply only when the next request has come; the last of them brings all",
            (n, dice) -> Timing.oneBehind(n, Limits.LONGEST_HELD)),
    TWICE(On.ANY, "the reply twice, without a pause", (n, dice) -> Timing.twice()),
    CUT_OFF(On.ANY, "only the beginning of the reply", (n, dice) -> Timing.cutOff(dice)),
    DRIBBLED(
            On.ANY,
            Argument.millis(),
            "the reply byte for byte, a pause between them",
            (n, dice) -> Timing.dribbled(n)),

    EXCEPTION(On.ANY, new Argument("code", 1, 255), "an exception", (n, dice) -> Refusals.exception(n)),
    BUSY(On.ANY, "exception 6", (n, dice) -> Refusals.exception(Refusals.BUSY)),
    ACKNOWLEDGE(On.ANY, "exception 5", (n, dice) -> Refusals.exception(Refusals.ACKNOWLEDGE)),
    SMALL_BLOCKS(
            On.ANY,
            new Argument("registers", 1, 2000),
            "exception 2 where more is asked for at once",
            (n, dice) -> Refusals.smallBlocks(n)),

    WRONG_UNIT(On.ANY, "the reply of another unit", (n, dice) -> Fields.wrongUnit(dice)),
    WRONG_FUNCTION(On.ANY, "the reply to another function", (n, dice) -> Fields.wrongFunction(dice)),
    WRONG_TRANSACTION(On.TCP, "another transaction identifier", (n, dice) -> Fields.wrongTransaction(dice)),
    WRONG_PROTOCOL(On.TCP, "another protocol identifier", (n, dice) -> Fields.wrongProtocol(dice)),
    WRONG_LENGTH(On.TCP, "another length in the header", (n, dice) -> Fields.wrongLength(dice)),
    WRONG_BYTE_COUNT(On.ANY, "another byte count than bytes follow", (n, dice) -> Fields.wrongByteCount(dice)),
    FEWER(On.ANY, "one register less than asked for", (n, dice) -> Fields.fewer()),
    MORE(On.ANY, "one register more than asked for", (n, dice) -> Fields.more()),
    BAD_CRC(On.RTU, "a checksum that is not its own", (n, dice) -> Fields.badChecksum(dice)),

    ECHO(On.RTU, "the request comes back before the reply", (n, dice) -> Disturbances.echoFirst()),
    ECHO_ONLY(On.ANY, "the request comes back and nothing else", (n, dice) -> Disturbances.echoOnly()),
    NOISE_BEFORE(On.RTU, "stray bytes, then the reply", (n, dice) -> Disturbances.noiseBefore(dice)),
    NOISE_INSIDE(On.RTU, "bytes put into the reply, or changed", (n, dice) -> Disturbances.noiseInside(dice)),
    NOISE_AFTER(On.RTU, "the reply, then stray bytes", (n, dice) -> Disturbances.noiseAfter(dice)),
    FIRST_BYTE_LOST(On.RTU, "the reply without its first byte", (n, dice) -> Disturbances.firstByteLost()),

    TWO_UNITS_AT_ONCE(
            On.RTU, "a second unit of this number answers at the same time", (n, dice) -> OtherStations.merged(dice)),
    TWO_UNITS_IN_TURN(
            On.RTU, "a second unit of this number answers right after", (n, dice) -> OtherStations.inTurn(dice)),
    SECOND_MASTER_BEFORE(
            On.RTU,
            "another master's request and its reply, then this reply",
            (n, dice) -> OtherStations.secondMaster(
                    OtherStations.Place.BEFORE, exchange -> OtherStations.anotherRead(exchange, dice))),
    SECOND_MASTER_BETWEEN(
            On.RTU,
            "another master's request, then this reply, then the one to it",
            (n, dice) -> OtherStations.secondMaster(
                    OtherStations.Place.BETWEEN, exchange -> OtherStations.anotherRead(exchange, dice))),
    SECOND_MASTER_INSTEAD(
            On.RTU,
            "another master's request and its reply, and none to this one",
            (n, dice) -> OtherStations.secondMaster(
                    OtherStations.Place.INSTEAD, exchange -> OtherStations.anotherRead(exchange, dice))),

    TORN_PAIRS(On.ANY, "every second register as it was when last asked for", (n, dice) -> new TornPair()),
    ZEROS(On.ANY, "registers and bits that are 0, as after a restart", (n, dice) -> Fields.zeros()),

    HANG_UP_BEFORE(On.CONNECTIONS, "the connection ends instead of a reply", (n, dice) -> Connections.hangUpBefore()),
    HANG_UP_INSIDE(On.CONNECTIONS, "the connection ends inside the reply", (n, dice) -> Connections.hangUpInside(dice)),
    HANG_UP_AFTER(On.CONNECTIONS, "the connection ends after the reply", (n, dice) -> Connections.hangUpAfter()),
    HANG_UP_THEN_REPLY(
            On.DEVICE_SERVER,
            Argument.millis(),
            "the connection ends, and so long after the request the reply comes on the next",
            (n, dice) -> Connections.hangUpThenReply(n)),
    REFUSE(
            On.CONNECTIONS,
            Argument.millis(),
            "the connection ends, and none is taken for so long",
            (n, dice) -> Connections.refuse(n));

    private enum On {
        ANY,
        TCP,
        RTU,
        CONNECTIONS,
        DEVICE_SERVER;

        boolean includes(Transport transport) {
            return switch (this) {
                case ANY -> true;
                case TCP -> !transport.isRtu();
                case RTU -> transport.isRtu();
                case CONNECTIONS -> transport.hasConnections();
                case DEVICE_SERVER -> transport == Transport.RTU_OVER_TCP;
            };
        }
    }

    /**
     * A number that a misbehaviour needs.
     *
     * @param what what it counts
     */
    public record Argument(String what, int least, int most) {
        static Argument millis() {
            return new Argument("ms", 0, 600_000);
        }

        /** @throws IllegalArgumentException where a number is not in its range */
        void require(String word, int number) {
            if (number < least || number > most) {
                throw new IllegalArgumentException(
                        word + ": " + what + " must be " + least + " to " + most + " (was " + number + ")");
            }
        }
    }

    private static final class Limits {
        /** Longer than any master waits. */
        static final Duration LONGEST_HELD = Duration.ofMinutes(1);

        private Limits() {}
    }

    private interface Maker {
        Manners make(int number, Random dice);
    }

    private final On on;
    private final Optional<Argument> argument;
    private final String told;
    private final Maker maker;

    Misbehaviour(On on, String told, Maker maker) {
        this(on, Optional.empty(), told, maker);
    }

    Misbehaviour(On on, Argument argument, String told, Maker maker) {
        this(on, Optional.of(argument), told, maker);
    }

    Misbehaviour(On on, Optional<Argument> argument, String told, Maker maker) {
        this.on = on;
        this.argument = argument;
        this.told = told;
        this.maker = maker;
    }

    @Override
    public boolean makesSenseOn(Transport transport) {
        return on.includes(transport);
    }

    @Override
    public Optional<Argument> argument() {
        return argument;
    }

    @Override
    public String told() {
        return told;
    }

    /**
     * The manners of a device that misbehaves so toward every request.
     *
     * @param number its argument; of no meaning where it has none
     * @param dice decides what is left open
     * @throws IllegalArgumentException where the argument is not one
     */
    public Manners manners(int number, Random dice) {
        argument.ifPresent(a -> a.require(word(), number));
        return maker.make(number, dice);
    }
}
