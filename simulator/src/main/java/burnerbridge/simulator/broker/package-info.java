/** An MQTT broker inside this process, for the demo and for tests that need no outside program. */
@NullMarked
package burnerbridge.simulator.broker;

import org.jspecify.annotations.NullMarked;
