package burnerbridge.benchmark.measure;

import java.util.Arrays;

/** How many ticks of the kernel's all processors have spent, and how many of them idle. */
record ProcessorTicks(long all, long idle) {
    private static final int IDLE = 3;
    private static final int WAITING = 4;
    /** What follows, guests' time, is counted in what stands before. */
    private static final int COUNTED = 8;

    /** Of the kernel's {@code /proc/stat}: user, nice, system, idle, waiting for devices, interrupts, stolen. */
    static ProcessorTicks parse(String stat) {
        String first = stat.lines().findFirst().orElse("");
        long[] ticks = Arrays.stream(first.replaceFirst("^cpu +", "").split(" ", -1))
                .mapToLong(Long::parseLong)
                .limit(COUNTED)
                .toArray();
        return new ProcessorTicks(Arrays.stream(ticks).sum(), ticks[IDLE] + ticks[WAITING]);
    }

    double busyShareSince(ProcessorTicks before) {
        long passed = all - before.all;
        return passed == 0 ? 0 : 1 - (double) (idle - before.idle) / passed;
    }
}
