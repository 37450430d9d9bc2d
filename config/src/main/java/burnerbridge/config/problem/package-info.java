/** What is wrong with a file, and where; what every reader tells it with. */
@NullMarked
package burnerbridge.config.problem;

import org.jspecify.annotations.NullMarked;
