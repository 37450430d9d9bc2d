/** Subscriptions to changes, and the notifications that they are owed. */
@NullMarked
package burnerbridge.bacnet.cov;

import org.jspecify.annotations.NullMarked;
