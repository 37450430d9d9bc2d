package burnerbridge.benchmark.start;

import java.util.concurrent.CountDownLatch;

/** A program that says that it is there, and does nothing: what Java itself takes. */
public final class Idle {
    private Idle() {}

    public static void main(String[] arguments) throws InterruptedException {
        System.out.println("ready");
        System.out.flush();
        new CountDownLatch(1).await();
    }
}
