package burnerbridge.line.wire;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.RunningClock;
import java.io.IOException;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HostNameTest {
    private final RunningClock clock = new RunningClock();
    private final CountDownLatch answers = new CountDownLatch(1);
    private final AtomicInteger asked = new AtomicInteger();
    private final HostName slow = new HostName("gateway.test", clock, this::resolveSlowly);

    private InetAddress resolveSlowly(String host) throws UnknownHostException {
        asked.incrementAndGet();
        try {
            answers.await();
        } catch (InterruptedException e) {
            throw new UnknownHostException(host);
        }
        return InetAddress.getLoopbackAddress();
    }

    private Deadline in(int millis) {
        return Deadline.after(Duration.ofMillis(millis), clock);
    }

    @Test
    void aNameThatIsNotResolvedInTimeIsGivenUpAndWaitedForAgain() throws IOException {
        long before = System.nanoTime();
        assertThatThrownBy(() -> slow.address(in(150), () -> false))
                .hasMessage("the host name was not resolved in time");
        assertThatThrownBy(() -> slow.address(in(150), () -> false)).isInstanceOf(IOException.class);
        assertThat(Duration.ofNanos(System.nanoTime() - before)).isLessThan(Duration.ofSeconds(5));
        answers.countDown();
        assertThat(slow.address(in(10_000), () -> false)).isEqualTo(InetAddress.getLoopbackAddress());
        assertThat(asked).hasValue(1);
    }

    @Test
    void closingEndsTheWait() {
        AtomicBoolean closed = new AtomicBoolean();
        Thread closing = new Thread(() -> closed.set(true), "closing");
        closing.start();
        assertThatThrownBy(() -> slow.address(in(600_000), closed::get)).hasMessage("this line was closed");
    }

    @Test
    void aNameIsResolvedAnewEachTime() throws IOException {
        answers.countDown();
        slow.address(in(10_000), () -> false);
        slow.address(in(10_000), () -> false);
        assertThat(asked).hasValue(2);
    }

    @Test
    void aNameThatNobodyKnowsIsToldSo() {
        HostName unknown = new HostName("nobody.test", clock, host -> {
            throw new UnknownHostException(host);
        });
        assertThatThrownBy(() -> unknown.address(in(10_000), () -> false))
                .hasMessage("the host name cannot be resolved");
    }

    @ParameterizedTest
    @ValueSource(strings = {"127.0.0.1", "::1", "fe80::1%1"})
    void anAddressAsksNobodyAndNeedsNoThread(String address) throws IOException {
        Thread[] on = {null};
        HostName numeric = new HostName(address, clock, host -> {
            on[0] = Thread.currentThread();
            return InetAddress.getLoopbackAddress();
        });
        numeric.address(in(1), () -> false);
        assertThat(on[0]).isSameAs(Thread.currentThread());
    }
}
