package burnerbridge.simulator.manners;

import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Misbehaviour.Argument;
import burnerbridge.simulator.manners.WriteCourse.Doing;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/** The ways to misbehave toward writes that a device accepts. Reads are answered as before. */
@SuppressWarnings("ImmutableEnumChecker") // what makes a course keeps nothing
public enum WriteMisbehaviour implements Kind {
    WRITE_SILENT("done, and no reply", (n, dice) -> replied(Timing.silent())),
    WRITE_EXCEPTION(
            new Argument("code", 1, 255), "an exception, and not done", (n, dice) -> refused(Refusals.exception(n))),
    WRITE_DONE_LATE(
            Argument.millis(),
            "accepted, and done so long after its request",
            (n, dice) -> done(new Doing.Late(Duration.ofMillis(n)))),
    WRITE_NOT_DONE("accepted, and not done", (n, dice) -> done(new Doing.Never())),
    WRITE_CHANGED("accepted, and another value taken than was written", (n, dice) -> done(new Doing.Otherwise())),
    WRITE_UNDONE(
            Argument.millis(),
            "done, and so long after its request another writer brings back what was there",
            (n, dice) -> done(new Doing.UndoneBySomebodyElse(Duration.ofMillis(n)))),
    WRITE_WRONG_ECHO(
            "done, and a reply that names another address, value or count", (n, dice) -> replied(wrongEcho(dice))),
    WRITE_CUT_OFF("done, and only the beginning of the reply", (n, dice) -> replied(Timing.cutOff(dice))),
    WRITE_TWICE("done, and the reply twice", (n, dice) -> replied(Timing.twice())),
    WRITE_ANSWERED_LATE(
            Argument.millis(), "done, and the reply so long after its request", (n, dice) -> replied(Timing.late(n))),
    WRITE_HANG_UP("done, and the connection ends instead of a reply", (n, dice) -> replied(Connections.hangUpBefore()));

    private interface Maker {
        WriteCourse make(int number, Random dice);
    }

    private final Optional<Argument> argument;
    private final String told;
    private final Maker maker;

    WriteMisbehaviour(String told, Maker maker) {
        this.argument = Optional.empty();
        this.told = told;
        this.maker = maker;
    }

    WriteMisbehaviour(Argument argument, String told, Maker maker) {
        this.argument = Optional.of(argument);
        this.told = told;
        this.maker = maker;
    }

    private static WriteCourse done(Doing doing) {
        return new WriteCourse(doing, Optional.empty());
    }

    private static WriteCourse replied(Manners reply) {
        return new WriteCourse(new Doing.AtOnce(), Optional.of(reply));
    }

    private static WriteCourse refused(Manners reply) {
        return new WriteCourse(new Doing.Never(), Optional.of(reply));
    }

    /** One byte behind the function becomes another one, in a frame that is whole. */
    private static Manners wrongEcho(Random dice) {
        return exchange -> {
            byte[] right = exchange.reply().pdu();
            byte[] wrong = Bytes.changed(right, Bytes.inside(right, dice), 1 + dice.nextInt(255));
            return List.of(exchange.send(exchange.reply().withPdu(wrong)));
        };
    }

    @Override
    public boolean makesSenseOn(Transport transport) {
        return this != WRITE_HANG_UP || transport.hasConnections();
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
     * What becomes of a write toward which a device misbehaves so.
     *
     * @param number its argument; of no meaning where it has none
     * @param dice decides what is left open
     * @throws IllegalArgumentException where the argument is not one
     */
    public WriteCourse course(int number, Random dice) {
        argument.ifPresent(a -> a.require(word(), number));
        return maker.make(number, dice);
    }

    /** A device that misbehaves so toward every write. */
    public WriteManners manners(int number, Random dice) {
        WriteCourse course = course(number, dice);
        return exchange -> course;
    }
}
