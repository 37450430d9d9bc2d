package burnerbridge.simulator.manners;

import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;

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

    /** The same, each time after a pause, besides the silence that lies between two frames. */
    default Manners after(Duration pause) {
        return pause.isZero()
                ? this
                : exchange -> Stream.concat(Stream.of(new Act.Pause(pause)), toward(exchange).stream())
                        .toList();
    }
}
