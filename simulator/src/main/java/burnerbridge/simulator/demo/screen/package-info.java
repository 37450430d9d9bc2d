/** What the demo shows, and the keys that it hears. */
@NullMarked
package burnerbridge.simulator.demo.screen;

import org.jspecify.annotations.NullMarked;
