package burnerbridge.simulator.device;

import burnerbridge.simulator.clock.Ticker;
import burnerbridge.simulator.manners.Act;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Does what was decided. On a serial line bytes leave at the time at which they would have come off a wire
 * of its rate, in lots of no more than a millisecond, as adapters hand them over. For one thread.
 */
final class Player {
    private static final long LOT = 1_000_000;

    private final Ticker ticker;
    private final Optional<WireRate> rate;

    /** @param rate empty where the wire has none */
    Player(Ticker ticker, Optional<WireRate> rate) {
        this.ticker = ticker;
        this.rate = rate;
    }

    /** @param requestCame when the request's last byte had come */
    void play(List<Act> acts, long requestCame, Outlet outlet) throws IOException, InterruptedException {
        long free = requestCame + rate.map(r -> r.silence().toNanos()).orElse(0L);
        for (Act act : acts) {
            free = Math.max(free, ticker.nanos());
            if (act instanceof Act.Send send) {
                free = send(send.bytes(), free, outlet);
            } else if (act instanceof Act.Pause pause) {
                free += pause.length().toNanos();
                ticker.await(free);
            } else if (act instanceof Act.NotBefore late) {
                free = Math.max(free, requestCame + late.afterRequest().toNanos());
                ticker.await(free);
            } else if (act instanceof Act.Refuse refuse) {
                outlet.refuse(refuse.length());
            } else {
                outlet.hangUp();
            }
        }
    }

    /** Returns when the last byte is off the wire. */
    private long send(byte[] bytes, long from, Outlet outlet) throws IOException, InterruptedException {
        if (rate.isEmpty()) {
            outlet.write(bytes);
            return ticker.nanos();
        }
        int lot = Math.max(1, (int) (LOT / rate.get().nanosOf(1)));
        for (int sent = 0; sent < bytes.length; sent += lot) {
            int end = Math.min(bytes.length, sent + lot);
            ticker.await(from + rate.get().nanosOf(end));
            outlet.write(Arrays.copyOfRange(bytes, sent, end));
        }
        return from + rate.get().nanosOf(bytes.length);
    }
}
