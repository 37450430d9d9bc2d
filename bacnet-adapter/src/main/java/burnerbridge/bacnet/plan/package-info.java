/** Which objects there are, where and under what name. */
@NullMarked
package burnerbridge.bacnet.plan;

import org.jspecify.annotations.NullMarked;
