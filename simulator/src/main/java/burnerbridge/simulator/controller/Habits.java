package burnerbridge.simulator.controller;

import burnerbridge.simulator.clock.Ticker;
import burnerbridge.simulator.device.WireRate;
import burnerbridge.simulator.manners.Act;
import burnerbridge.simulator.manners.Exchange;
import burnerbridge.simulator.manners.Manners;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What the units of a line take their time for. A unit that is asked again before it has rested does not
 * answer.
 */
final class Habits implements Manners {
    private static final Habit NONE = new Habit(Duration.ZERO, Duration.ZERO);

    private final Map<Integer, Habit> byUnit;
    private final WireRate rate;
    private final Ticker ticker;
    private final Map<Integer, Long> restedAt = new HashMap<>();

    /**
     * @param turnaround what a reply takes besides the silence before it
     * @param rest from the end of a reply to the next request that it will hear
     */
    record Habit(Duration turnaround, Duration rest) {}

    Habits(Map<Integer, Habit> byUnit, WireRate rate, Ticker ticker) {
        this.rate = rate;
        this.byUnit = Map.copyOf(byUnit);
        this.ticker = ticker;
    }

    @Override
    public List<Act> toward(Exchange exchange) {
        int unit = exchange.request().unit();
        Habit habit = byUnit.getOrDefault(unit, NONE);
        long came = ticker.nanos() - exchange.age().toNanos();
        Long rested = restedAt.get(unit);
        if (rested != null && came - rested < 0) {
            return List.of();
        }
        Duration busy = exchange.silence()
                .plus(habit.turnaround())
                .plus(rate.timeOf(exchange.bytes(exchange.reply()).length))
                .plus(habit.rest());
        restedAt.put(unit, came + busy.toNanos());
        return List.of(new Act.Pause(habit.turnaround()), exchange.rightly());
    }
}
