/** How a device treats requests: rightly, or in one of the ways in which devices and wires fail. */
@NullMarked
package burnerbridge.simulator.manners;

import org.jspecify.annotations.NullMarked;
