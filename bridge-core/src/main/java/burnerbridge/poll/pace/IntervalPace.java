package burnerbridge.poll.pace;

import burnerbridge.site.ControllerDefinition;
import java.time.Duration;
import java.util.Optional;

/**
 * How the reads of one controller that are wanted at one interval were made since the start.
 *
 * @param every how often each is wanted
 * @param reads how many there are now
 * @param scan how long it took of late to make each of them once, with the pauses that the controller asks for; empty
 *     until each was answered, be it by a refusal
 * @param achieved how often each was answered of late, the mean over the reads; a read that has had no answer for
 *     longer counts with that time. Empty before the first two answers
 * @param skipped turns that were left out since the line was busy with others, not because the controller or the
 *     line was lost
 * @param requests requests made, repetitions included
 * @param busTime how long the line was taken up by them
 */
public record IntervalPace(
        ControllerDefinition controller,
        Duration every,
        int reads,
        Optional<Duration> scan,
        Optional<Duration> achieved,
        long skipped,
        long requests,
        Duration busTime) {}
