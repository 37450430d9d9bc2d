/** The demo: the invented plant, a broker and the real bridge as a child process, shown side by side. */
@NullMarked
package burnerbridge.simulator.demo;

import org.jspecify.annotations.NullMarked;
