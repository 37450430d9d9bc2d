package burnerbridge.simulator.device;

import burnerbridge.simulator.clock.Ticker;
import burnerbridge.simulator.frame.Frame;
import burnerbridge.simulator.frame.RtuRequests;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A serial line with a device on it: what is heard on it is taken in order by one thread, which also does
 * what follows. While it does, nobody listens, and what comes is heard afterwards.
 */
final class SerialLine implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(SerialLine.class);
    /** Adapters and networks make pauses of their own, which end no request. */
    private static final long QUIET_MILLIS = 20;

    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Heard(byte[] bytes, long at) {}

    private final Behaviour behaviour;
    private final WireRate rate;
    private final Ticker ticker;
    private final Outlet outlet;
    private final BlockingQueue<Heard> heard = new LinkedBlockingQueue<>();
    private final RtuRequests requests = new RtuRequests();
    private final Player player;
    private final Thread thread;
    /** When the last byte of the request under way is off the wire. */
    private long wholeAt;

    SerialLine(String name, Behaviour behaviour, WireRate rate, Ticker ticker, Outlet outlet) {
        this.behaviour = behaviour;
        this.rate = rate;
        this.ticker = ticker;
        this.outlet = outlet;
        this.player = new Player(ticker, Optional.of(rate));
        this.thread = Threads.of("modbus line " + name, this::run);
    }

    void start() {
        thread.start();
    }

    /** Takes what came in on the line, from any thread. */
    void hear(byte[] bytes) {
        heard.add(new Heard(bytes, ticker.nanos()));
    }

    private void run() {
        try {
            while (true) {
                listen();
            }
        } catch (InterruptedException e) {
            // It is closed.
        }
    }

    private void listen() throws InterruptedException {
        Heard next = requests.isInsideOne() ? heard.poll(QUIET_MILLIS, TimeUnit.MILLISECONDS) : heard.take();
        if (next == null) {
            answer(requests.silence());
            return;
        }
        for (byte one : next.bytes()) {
            wholeAt = Math.max(wholeAt, next.at()) + rate.nanosOf(1);
            answer(requests.take(one));
        }
    }

    private void answer(Optional<Frame> request) throws InterruptedException {
        if (request.isPresent()) {
            try {
                player.play(behaviour.toward(request.get(), wholeAt), wholeAt, outlet);
            } catch (IOException e) {
                LOG.debug("{}: what was to be sent is lost: {}", thread.getName(), e.toString());
            }
        }
    }

    @Override
    public void close() {
        thread.interrupt();
        Threads.awaitEnd(thread);
    }
}
