package burnerbridge.simulator.manners;

import java.util.List;

/**
 * Decides what a device does with a request. It is asked once for each request to which the device has a
 * reply, in the order in which it takes them, and never by two threads at a time.
 */
@FunctionalInterface
public interface Manners {
    /** Every request gets its right reply. */
    Manners WELL = exchange -> List.of(exchange.rightly());

    /** What is done, in order; nothing for silence. */
    List<Act> toward(Exchange exchange);
}
