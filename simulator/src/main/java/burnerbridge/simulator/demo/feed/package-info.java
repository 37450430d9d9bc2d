/** What the bridge publishes, as any subscriber of the demo's broker gets it. */
@NullMarked
package burnerbridge.simulator.demo.feed;

import org.jspecify.annotations.NullMarked;
