package burnerbridge.simulator.demo;

import burnerbridge.simulator.controller.SimulatedController;
import burnerbridge.simulator.plant.Burner;
import burnerbridge.simulator.plant.BurnerState;
import burnerbridge.simulator.plant.Phase;
import java.time.Duration;

/** Makes the demo worth watching: every second firing loses its flame, and later somebody resets it. */
final class Attendant {
    private static final Duration FIRING = Duration.ofSeconds(20);
    private static final Duration WALK_TO_THE_BURNER = Duration.ofSeconds(20);

    private final SimulatedController controller;
    private final int startsAtFirst;

    Attendant(SimulatedController controller) {
        this.controller = controller;
        this.startsAtFirst = controller.state().starts();
    }

    void attend(BurnerState state) {
        boolean second = (state.starts() - startsAtFirst) % 2 == 0;
        if (second && state.phase() == Phase.FIRING && state.inPhase().compareTo(FIRING) > 0) {
            controller.act(Burner::failFlame);
        } else if (state.lockout() && state.inPhase().compareTo(WALK_TO_THE_BURNER) > 0) {
            controller.act(Burner::resetAtTheBurner);
        }
    }
}
