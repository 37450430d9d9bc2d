package burnerbridge.simulator.plant.fire;

/** What the sequence asks of fan, damper and fuel at a moment. */
public sealed interface Draught {

    /** Everything shut and still. */
    record Rest() implements Draught {}

    /** All the air there is, and no fuel. */
    record Purge() implements Draught {}

    /** Where a flame lights best. */
    record LightOff() implements Draught {}

    /** Along the curve, at a load in % of full power. */
    record Firing(double load) implements Draught {}
}
