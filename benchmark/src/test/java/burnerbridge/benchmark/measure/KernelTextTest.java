package burnerbridge.benchmark.measure;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class KernelTextTest {
    private final KernelText text = new KernelText("""
            VmHWM:\t  9000 kB
            VmRSS:\t  8124 kB
            Threads:\t17
            Max open files            1024                 524288               files
            Max cpu time              unlimited            unlimited            seconds
            """);

    @Test
    void theFirstNumberBehindALabelIsMeant() {
        assertThat(text.number("VmRSS:")).hasValue(8124);
        assertThat(text.number("Threads:")).hasValue(17);
        assertThat(text.number("Max open files")).hasValue(1024);
    }

    @Test
    void whatIsUnlimitedOrMissingHasNone() {
        assertThat(text.number("Max cpu time")).isEmpty();
        assertThat(text.number("VmSwap:")).isEmpty();
    }
}
