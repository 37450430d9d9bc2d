package burnerbridge.simulator.demo;

import burnerbridge.simulator.plant.BurnerState;
import java.time.Instant;

/** Where the live table is shown. */
sealed interface Screen extends AutoCloseable permits RedrawnScreen, PhaseLog {

    /** Shows what is now; called about twice a second. */
    void show(BurnerState state, Instant now);

    /** Leaves the terminal as it was. */
    @Override
    void close();
}
