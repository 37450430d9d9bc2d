package burnerbridge.benchmark.measure;

import static org.assertj.core.api.Assertions.assertThat;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

class ProcessorTicksTest {

    @Test
    void whatIsNeitherIdleNorWaitingIsBusyAndGuestsCountOnce() {
        ProcessorTicks before = ProcessorTicks.parse("cpu  100 0 50 800 40 5 5 0 30 0\ncpu0 1 2 3 4 5 6 7 8 9 10\n");
        ProcessorTicks after = ProcessorTicks.parse("cpu  120 0 60 850 50 5 5 10 45 0\n");

        assertThat(before).isEqualTo(new ProcessorTicks(1000, 840));
        assertThat(after.busyShareSince(before)).isEqualTo(0.4, Offset.offset(1e-9));
        assertThat(after.busyShareSince(after)).isZero();
    }
}
