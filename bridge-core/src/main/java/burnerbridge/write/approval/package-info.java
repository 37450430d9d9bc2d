/** What a person has approved, item by item, so that whatever changed can be named. */
@NullMarked
package burnerbridge.write.approval;

import org.jspecify.annotations.NullMarked;
