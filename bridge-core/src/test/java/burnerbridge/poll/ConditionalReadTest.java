package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.site.Condition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointOptions;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Scaling;
import java.time.Duration;
import java.util.Arrays;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** A setting that is read every hour and means something while the bit of a coil is set. */
class ConditionalReadTest {
    private final PollRig rig = new PollRig(Points.controller(
            0,
            "boiler-1",
            1,
            onlyWhenReleased(Points.every("ramp", 40, Duration.ofHours(1))),
            onlyWhenReleased(bit("trim", 8)),
            bit("released", 7)));
    private boolean released;
    private boolean isRefused;

    private static PointDefinition onlyWhenReleased(PointDefinition point) {
        return point.with(PointOptions.when(new Condition(new Name("released"), Set.of(1L))));
    }

    private static PointDefinition bit(String name, int wire) {
        return Points.point(
                name, RegisterTable.COIL, wire, new PointFormat.Bit(), Scaling.NONE, Points.states(Map.of()));
    }

    private Outcome answer(ReadRequest request) {
        if (request.function() == 1 && isRefused) {
            return rig.refused(request, 2);
        }
        int[] words = new int[request.count()];
        Arrays.setAll(words, i -> request.function() == 1 ? (released ? 1 : 0) : 250);
        return new Outcome.Answered(Registers.of(words), rig.clock.now());
    }

    private void run(boolean nowReleased, Duration duration) {
        released = nowReleased;
        rig.transport.answer = this::answer;
        rig.runFor(duration);
    }

    private Reason ramp() {
        return rig.reading(0).reason();
    }

    @Test
    void aReadingIsHeldAgainstTheStateOfTheSameReply() {
        run(true, Duration.ofSeconds(1));
        assertThat(rig.reading(1).isGood()).isTrue();
        run(false, Duration.ofSeconds(3));
        assertThat(rig.reading(1).reason()).isEqualTo(Reason.NOT_APPLICABLE);
    }

    @Test
    void whatDidNotApplyIsReadAgainAsSoonAsItDoes() {
        run(false, Duration.ofSeconds(10));
        assertThat(ramp()).isEqualTo(Reason.NOT_APPLICABLE);
        assertThat(rig.reading(0).newestGood()).isEmpty();
        run(true, Duration.ofSeconds(5));
        assertThat(rig.reading(0).value()).isEqualTo(IntegerValue.of(250));
        assertThat(rig.askedFirsts().stream().filter(first -> first == 40)).hasSize(2);
    }

    @Test
    void whatAppliedUntilNowIsNoLongerGoodWithoutBeingReadAgain() {
        run(true, Duration.ofSeconds(5));
        assertThat(ramp()).isEqualTo(Reason.NONE);
        run(false, Duration.ofSeconds(5));
        assertThat(ramp()).isEqualTo(Reason.NOT_APPLICABLE);
        assertThat(rig.reading(0).newestGood().orElseThrow().value()).isEqualTo(IntegerValue.of(250));
        assertThat(rig.askedFirsts().stream().filter(first -> first == 40)).hasSizeLessThanOrEqualTo(2);
    }

    @Test
    void whereTheStateIsRefusedWhatHangsOnItIsTakenForNoBetter() {
        run(true, Duration.ofSeconds(5));
        isRefused = true;
        run(true, Duration.ofSeconds(5));
        assertThat(ramp()).isEqualTo(Reason.REFUSED);
        assertThat(rig.reading(0).exceptionCode()).isEqualTo(2);
        isRefused = false;
        run(true, Duration.ofSeconds(5));
        assertThat(ramp()).isEqualTo(Reason.NONE);
    }
}
