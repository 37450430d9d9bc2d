/** Octets, tags and numbers as ASHRAE 135 codes them, read without trusting a single one. */
@NullMarked
package burnerbridge.bacnet.edge.coding;

import org.jspecify.annotations.NullMarked;
