/** The demo: the invented plant, a broker and the real bridge as a child process, and what a visitor does to them. */
@NullMarked
package burnerbridge.simulator.demo;

import org.jspecify.annotations.NullMarked;
