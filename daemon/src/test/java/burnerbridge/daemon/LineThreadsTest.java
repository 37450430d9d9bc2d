package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.VitalThread;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Endpoint;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import burnerbridge.site.Name;
import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LineThreadsTest {
    private static final Endpoint TCP = new LineDefinition.Tcp("127.0.0.1", 502);
    private static final Endpoint RTU_OVER_TCP = new LineDefinition.RtuOverTcp("127.0.0.1", 502, 19200);
    private static final Endpoint SERIAL =
            new LineDefinition.Serial("/dev/ttyUSB0", 19200, Parity.EVEN, 1, Rs485.AUTO, false);

    private static Thread thread(LineThreads threads, Endpoint endpoint, Runnable work) {
        Duration second = Duration.ofSeconds(1);
        return threads.of(new LineDefinition(new Name("annex"), endpoint, second, second), work);
    }

    private static boolean isVirtual(Thread thread) {
        return thread.getClass().getSimpleName().contains("VirtualThread");
    }

    private static boolean runsOnAJavaWithUsefulOnes() {
        return Runtime.version().feature() >= 24;
    }

    @Test
    void aTcpLineHasAVirtualThreadWhereTheseAreOfUse() {
        LineThreads threads = LineThreads.ofThisJava();
        assertThat(isVirtual(thread(threads, TCP, () -> {}))).isEqualTo(runsOnAJavaWithUsefulOnes());
        assertThat(isVirtual(thread(threads, RTU_OVER_TCP, () -> {}))).isEqualTo(runsOnAJavaWithUsefulOnes());
    }

    /** Where Java has them but they pin their carriers, and where it has none though it should. */
    @ParameterizedTest
    @ValueSource(ints = {17, 21, 23})
    void belowJava24EveryLineHasOneOfThePlatform(int feature) {
        assertThat(isVirtual(thread(LineThreads.ofJava(feature), TCP, () -> {})))
                .isFalse();
    }

    @Test
    void aSerialLineNeverHasAVirtualThread() {
        assertThat(isVirtual(thread(LineThreads.ofJava(24), SERIAL, () -> {}))).isFalse();
        assertThat(isVirtual(thread(LineThreads.ofThePlatform(), TCP, () -> {})))
                .isFalse();
    }

    /** On a Java without virtual threads this is the way back to one of the platform. */
    @ParameterizedTest
    @ValueSource(ints = {17, 24})
    void aThreadOfALineIsNamedKeepsNoProcessAliveAndRuns(int feature) throws Exception {
        CompletableFuture<String> ran = new CompletableFuture<>();
        Thread thread = thread(
                LineThreads.ofJava(feature),
                TCP,
                () -> ran.complete(Thread.currentThread().getName()));
        assertThat(thread.isDaemon()).isTrue();
        assertThat(thread.getUncaughtExceptionHandler()).isInstanceOf(VitalThread.class);
        thread.start();
        assertThat(ran.get(10, TimeUnit.SECONDS)).isEqualTo("line annex");
    }
}
