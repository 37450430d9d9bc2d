/** Small pieces of the data path, measured with JMH. */
@NullMarked
package burnerbridge.benchmark.micro;

import org.jspecify.annotations.NullMarked;
