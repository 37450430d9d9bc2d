/** Write permits as people see them, of this process or of a running bridge, and the acts of approving and withdrawing. */
@NullMarked
package burnerbridge.permits;

import org.jspecify.annotations.NullMarked;
