package burnerbridge.benchmark.bacnet;

import java.time.Duration;

/**
 * One start.
 *
 * @param making from the first object to having told everybody of the device
 * @param whole from starting the process to its first reply
 * @param residentMib resident memory then
 */
record StartSeen(Duration making, Duration whole, double residentMib) {}
