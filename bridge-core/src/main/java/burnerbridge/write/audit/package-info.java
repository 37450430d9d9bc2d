/** What was asked and written, as a chain that shows what was changed in it. */
@NullMarked
package burnerbridge.write.audit;

import org.jspecify.annotations.NullMarked;
