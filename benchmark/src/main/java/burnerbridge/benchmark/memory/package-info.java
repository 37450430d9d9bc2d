/** What memory the daemon needs: within bounds that the system holds it to. */
@NullMarked
package burnerbridge.benchmark.memory;

import org.jspecify.annotations.NullMarked;
