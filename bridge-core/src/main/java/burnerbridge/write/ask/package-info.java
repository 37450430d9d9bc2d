/** What is asked for, by whom, and what became of it at once. */
@NullMarked
package burnerbridge.write.ask;

import org.jspecify.annotations.NullMarked;
