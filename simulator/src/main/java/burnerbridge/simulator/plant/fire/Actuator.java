package burnerbridge.simulator.plant.fire;

import burnerbridge.simulator.value.Lagged;

/** A motor that turns to where it is told, at its own speed, unless it is stuck. */
final class Actuator {
    private static final double DEGREES_A_SECOND = 12;

    private double commanded;
    private double actual;
    private boolean stuck;

    void stick(boolean holds) {
        stuck = holds;
    }

    void towards(double target, double seconds) {
        commanded = target;
        if (!stuck) {
            actual = Lagged.ramped(actual, target, seconds, DEGREES_A_SECOND);
        }
    }

    Position position() {
        return new Position(commanded, actual);
    }
}
