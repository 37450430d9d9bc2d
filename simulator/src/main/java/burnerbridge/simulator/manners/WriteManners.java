package burnerbridge.simulator.manners;

/** Decides what becomes of each write that a device accepts, in their order, and never by two threads at a time. */
@FunctionalInterface
public interface WriteManners {
    /** Every write is done, and answered as anything is. */
    WriteManners WELL = exchange -> WriteCourse.RIGHT;

    WriteCourse toward(Exchange exchange);
}
