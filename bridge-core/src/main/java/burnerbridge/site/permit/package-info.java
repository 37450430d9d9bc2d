/** Leave to write: which point, who may ask, what is allowed, and what happens when nobody asks any more. */
@NullMarked
package burnerbridge.site.permit;

import org.jspecify.annotations.NullMarked;
