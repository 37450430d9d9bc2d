/** The devices that are measured, ours and the library's, each in a process of its own. */
@NullMarked
package burnerbridge.benchmark.bacnet.device;

import org.jspecify.annotations.NullMarked;
