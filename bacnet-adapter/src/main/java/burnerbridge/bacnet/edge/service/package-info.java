/** Judges what the application layer asks or answers, on its bytes alone. */
@NullMarked
package burnerbridge.bacnet.edge.service;

import org.jspecify.annotations.NullMarked;
