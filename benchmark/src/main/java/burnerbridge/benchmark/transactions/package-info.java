/** How long one read takes, beside a reference in C that asks the same server. */
@NullMarked
package burnerbridge.benchmark.transactions;

import org.jspecify.annotations.NullMarked;
