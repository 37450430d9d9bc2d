package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

class PartsTest {

    @Test
    void partsEndInReverseOrderAndOneThatFailsKeepsNoOther() {
        List<String> ended = new ArrayList<>();
        StopStack stack = new StopStack();
        stack.push(() -> ended.add("first"));
        stack.push(() -> {
            throw new IllegalStateException("stuck");
        });
        stack.push(() -> ended.add("third"));
        stack.close();
        stack.close();
        assertThat(ended).containsExactly("third", "first");
    }

    @Test
    void aDutyIsSteppedUntilItIsClosed() {
        CountDownLatch steps = new CountDownLatch(3);
        MachineClock clock = new MachineClock();
        DutyThread thread = new DutyThread("duty", now -> countDown(steps, now), clock);
        assertTimeoutPreemptively(Duration.ofSeconds(20), () -> {
            thread.start();
            steps.await();
            thread.close();
        });
    }

    private static long countDown(CountDownLatch steps, long now) {
        steps.countDown();
        return now;
    }

    @Test
    void aDutyThatFailsIsSteppedAgain() {
        AtomicInteger tries = new AtomicInteger();
        CountDownLatch second = new CountDownLatch(1);
        DutyThread thread = new DutyThread(
                "duty",
                now -> {
                    if (tries.incrementAndGet() == 1) {
                        throw new IllegalStateException("a defect");
                    }
                    second.countDown();
                    return now + 3_600_000_000_000L;
                },
                new MachineClock());
        assertTimeoutPreemptively(Duration.ofSeconds(20), () -> {
            thread.start();
            second.await();
            thread.close();
        });
    }

    @Test
    void closingDoesNotWaitForADutyThatIsDueMuchLater() {
        CountDownLatch stepped = new CountDownLatch(1);
        DutyThread thread = new DutyThread(
                "duty",
                now -> {
                    stepped.countDown();
                    return now + 3_600_000_000_000L;
                },
                new MachineClock());
        assertTimeoutPreemptively(Duration.ofSeconds(20), () -> {
            thread.start();
            stepped.await();
            thread.close();
        });
    }

    @Test
    void aDutyThatDiesAsksTheRootToEndTheProcess() throws Exception {
        Thread.UncaughtExceptionHandler before = Thread.getDefaultUncaughtExceptionHandler();
        CompletableFuture<String> died = new CompletableFuture<>();
        Thread.setDefaultUncaughtExceptionHandler((thread, error) -> died.complete(thread.getName()));
        try {
            DutyThread thread = new DutyThread(
                    "duty",
                    now -> {
                        throw new AssertionError("out of everything");
                    },
                    new MachineClock());
            thread.start();
            assertThat(died.get(20, TimeUnit.SECONDS)).isEqualTo("duty");
            thread.close();
        } finally {
            Thread.setDefaultUncaughtExceptionHandler(before);
        }
    }
}
