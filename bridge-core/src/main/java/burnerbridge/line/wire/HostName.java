package burnerbridge.line.wire;

import burnerbridge.model.BridgeClock;
import java.io.IOException;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.BooleanSupplier;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The host of a line by its name or address. The system resolves names for as long as it likes and cannot be
 * interrupted; so it does on a thread of its own, which is left alone when it takes too long. There is one
 * such thread at most: whoever asks again waits for the same answer. For the line's own thread.
 */
public final class HostName {
    /** What is an address already, and asks nobody. */
    private static final Pattern ADDRESS = Pattern.compile("((25[0-5]|2[0-4]\\d|1?\\d?\\d)(\\.(?!$)|$)){4}|.*:.*");

    /** How the system resolves a name. */
    interface Resolver {
        InetAddress resolve(String host) throws UnknownHostException;
    }

    private final String host;
    private final BridgeClock clock;
    private final Resolver resolver;
    private @Nullable CompletableFuture<InetAddress> underWay;

    public HostName(String host, BridgeClock clock) {
        this(host, clock, InetAddress::getByName);
    }

    HostName(String host, BridgeClock clock, Resolver resolver) {
        this.host = host;
        this.clock = clock;
        this.resolver = resolver;
    }

    /**
     * Its address, as it is now.
     *
     * @param isClosed whether nobody needs it any more; looked at every 100 ms at least
     * @throws IOException where it is not known by the deadline, and why
     */
    InetAddress address(Deadline deadline, BooleanSupplier isClosed) throws IOException {
        if (ADDRESS.matcher(host).matches()) {
            return resolver.resolve(host);
        }
        CompletableFuture<InetAddress> answer = underWay == null ? begin() : underWay;
        underWay = answer;
        while (!deadline.isOver(clock) && !isClosed.getAsBoolean()) {
            try {
                InetAddress address = answer.get(deadline.sliceMillis(clock), TimeUnit.MILLISECONDS);
                underWay = null;
                return address;
            } catch (TimeoutException slice) {
                // It is looked at once more.
            } catch (ExecutionException e) {
                underWay = null;
                throw new IOException("the host name cannot be resolved", e.getCause());
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new IOException("interrupted while the host name was resolved", e);
            }
        }
        throw new IOException(
                isClosed.getAsBoolean() ? "this line was closed" : "the host name was not resolved in time");
    }

    private CompletableFuture<InetAddress> begin() {
        CompletableFuture<InetAddress> answer = new CompletableFuture<>();
        Thread thread = new Thread(() -> resolve(answer), "resolve " + host);
        thread.setDaemon(true);
        thread.start();
        return answer;
    }

    private void resolve(CompletableFuture<InetAddress> answer) {
        try {
            answer.complete(resolver.resolve(host));
        } catch (UnknownHostException | RuntimeException e) {
            answer.completeExceptionally(e);
        }
    }
}
