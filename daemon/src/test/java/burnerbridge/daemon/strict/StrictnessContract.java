package burnerbridge.daemon.strict;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Misbehaviour;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import com.ghgande.j2mod.modbus.facade.AbstractModbusMaster;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;

/**
 * Thousands of misbehaviours toward thousands of reads on one transport, in several lanes side by side. The
 * same stream is then put to another master, which takes a wrong value for good: otherwise the stream would
 * be too tame to show anything.
 *
 * <p>The system property {@code burnerbridge.strict.seed} chooses another stream, {@code
 * burnerbridge.strict.questions} another length of each lane.
 */
abstract class StrictnessContract {
    static final Duration TIMEOUT = Duration.ofMillis(50);
    /** So fast that the wire costs little beside the silences. */
    static final int BAUD = 921_600;

    static final int BITS = 10;
    static final long SEED = Long.getLong("burnerbridge.strict.seed", 20261125);
    private static final int QUESTIONS = Integer.getInteger("burnerbridge.strict.questions", 600);
    private static final int LANES = 8;
    private static final Set<String> WRONG = ConcurrentHashMap.newKeySet();
    /** Well-behaved it answers more than half of the stream; some of that is lost in other requests' trouble. */
    private static final double LEAST_ANSWERED = 0.35;

    abstract Transport transport();

    /** A door of a device that nobody has yet. */
    abstract Door newDoor(int lane, int baud) throws IOException;

    /** Whether the master behind a door hears what it sends. */
    boolean echoes(Door door) {
        return false;
    }

    abstract LineDefinition.Endpoint endpoint(FieldDevice device, Door door);

    abstract AbstractModbusMaster libraryMaster(FieldDevice device, Door door);

    Master ours(FieldDevice device, Door door, Duration timeout) {
        return new OurMaster(
                new LineDefinition(new Name("strict"), endpoint(device, door), timeout, Duration.ofMillis(500)));
    }

    private Master library(FieldDevice device, Door door) {
        return new J2modMaster(libraryMaster(device, door));
    }

    @Test
    void noWrongValueIsEverGood() throws Exception {
        Tally tally = new Tally();
        List<String> trouble = inLanes(LANES, lane -> run(lane, tally));
        System.out.println(transport() + ", seeds from " + SEED + ": " + tally);

        assertNothingWrong(tally);
        assertThat(trouble).as("lines that do not answer again").isEmpty();
        assertThat(tally.shareAnswered()).isGreaterThan(LEAST_ANSWERED);
        assertThat(tally.played().keySet()).containsExactlyInAnyOrderElementsOf(expected());
    }

    /** One wrong value is one too many: a second try of the test does not forget what the first saw. */
    static void assertNothingWrong(Tally tally) {
        WRONG.addAll(tally.wrong());
        assertThat(WRONG).as("wrong values taken for good").isEmpty();
    }

    /** One of several streams side by side. */
    interface Stream {
        Optional<String> run(int lane) throws IOException;
    }

    static List<String> inLanes(int count, Stream stream) throws Exception {
        List<String> trouble = new ArrayList<>();
        ExecutorService threads = Executors.newFixedThreadPool(count);
        try {
            List<Future<Optional<String>>> lanes = new ArrayList<>();
            for (int lane = 0; lane < count; lane++) {
                int number = lane;
                lanes.add(threads.submit(() -> stream.run(number)));
            }
            for (Future<Optional<String>> lane : lanes) {
                lane.get().ifPresent(trouble::add);
            }
        } finally {
            threads.shutdownNow();
        }
        return trouble;
    }

    private Optional<String> run(int lane, Tally tally) throws IOException {
        Door door = newDoor(lane, BAUD);
        try (Lane one = Lane.of(SEED + lane, door, echoes(door), TIMEOUT, tally);
                Master master = ours(one.device(), door, TIMEOUT)) {
            one.ask(master, QUESTIONS, () -> false);
            return one.troubleAfterwards(master, TIMEOUT);
        }
    }

    private List<Misbehaviour> expected() {
        return Arrays.stream(Misbehaviour.values())
                .filter(what -> what.makesSenseOn(transport()))
                .filter(what -> what != Misbehaviour.ZEROS && what != Misbehaviour.TORN_PAIRS)
                .toList();
    }

    /** The control: it is stopped at its first wrong value. */
    @Test
    void theSameStreamMakesAnotherMasterTakeAWrongValueForGood() throws IOException {
        Tally tally = new Tally();
        for (int lane = 0; lane < LANES && tally.wrong().isEmpty(); lane++) {
            Door door = newDoor(LANES + lane, BAUD);
            try (Lane one = Lane.of(SEED + lane, door, echoes(door), TIMEOUT, tally);
                    Master master = library(one.device(), door)) {
                one.ask(master, QUESTIONS, () -> !tally.wrong().isEmpty());
            }
        }
        System.out.println(transport() + ", control: " + tally + ": " + tally.wrong());

        assertThat(tally.wrong()).isNotEmpty();
    }
}
