package burnerbridge.simulator.demo;

import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executor;
import java.util.concurrent.TimeUnit;

/** Tells the demo to stop. All methods may be called by any thread. */
final class StopSignal {
    private final CountDownLatch given = new CountDownLatch(1);

    void give() {
        given.countDown();
    }

    /** Gives it when so much time has passed. */
    void giveAfter(Duration time) {
        Executor later = CompletableFuture.delayedExecutor(time.toMillis(), TimeUnit.MILLISECONDS);
        later.execute(this::give);
    }

    boolean isGiven() {
        return given.getCount() == 0;
    }

    /** Waits for it no longer than so; returns whether it is given. */
    boolean given(long time, TimeUnit unit) throws InterruptedException {
        return given.await(time, unit);
    }
}
