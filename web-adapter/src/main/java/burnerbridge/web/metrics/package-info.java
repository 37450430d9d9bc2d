/** What is counted, as text that programs collect. */
@NullMarked
package burnerbridge.web.metrics;

import org.jspecify.annotations.NullMarked;
