/** What many lines cost: the real daemon against a plant of as many ports. */
@NullMarked
package burnerbridge.benchmark.lines;

import org.jspecify.annotations.NullMarked;
