/** The state folder: where the program keeps what is its own, and the lock that makes one program its owner. */
@NullMarked
package burnerbridge.state;

import org.jspecify.annotations.NullMarked;
