package burnerbridge.simulator.demo;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.controller.SimulatedController;
import burnerbridge.simulator.plant.Burner;
import burnerbridge.simulator.plant.BurnerSettings;
import burnerbridge.simulator.plant.BurnerState;
import burnerbridge.simulator.plant.Cause;
import burnerbridge.simulator.plant.Phase;
import java.util.function.Predicate;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class AttendantTest {
    private static final int LONGEST = 6000;

    /** Never started: stepped by the test. */
    private final SimulatedController controller =
            new SimulatedController("boiler-1", Ports.HOST, 0, 1, BurnerSettings.brisk(), 6);

    private final Attendant attendant = new Attendant(controller);

    @AfterEach
    void close() {
        controller.close();
    }

    @Test
    void theFirstFiringEndsByItselfAndTheSecondInLockout() {
        runUntil(s -> s.phase() == Phase.POST_PURGE);
        runUntil(BurnerState::lockout);

        assertThat(controller.state().cause()).isEqualTo(Cause.FLAME_LOST);
    }

    @Test
    void afterALockoutTheBurnerIsResetAndFiresAgain() {
        runUntil(BurnerState::lockout);
        runUntil(s -> s.phase() == Phase.STANDBY);

        runUntil(s -> s.phase() == Phase.POST_PURGE);
    }

    private void runUntil(Predicate<BurnerState> reached) {
        for (int steps = 0; !reached.test(controller.state()); steps++) {
            assertThat(steps).as("steps; now %s", controller.state()).isLessThan(LONGEST);
            controller.act(Burner::step);
            attendant.attend(controller.state());
        }
    }
}
