/** Whether a serial line keeps the pace that was predicted for it. */
@NullMarked
package burnerbridge.benchmark.pace;

import org.jspecify.annotations.NullMarked;
