package burnerbridge.line;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.LineDefinition;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Modbus TCP. A request has an absolute deadline, and its reply must match it in transaction, protocol,
 * unit, function, byte count and number of registers. After a time-out or any doubt the connection is
 * closed, so that a late reply can never answer the next question.
 */
final class TcpTransport implements LineTransport {
    private static final int LARGEST_TRANSACTION = 0xFFFF;

    private final LineDefinition.Tcp endpoint;
    private final Duration replyTimeout;
    private final Duration connectTimeout;
    private final BridgeClock clock;
    private int transaction;
    private @Nullable TcpConnection connection;

    private final Object closing = new Object();
    private boolean closed;
    /** What {@link #close} ends from another thread, connecting or connected. */
    private @Nullable Socket socket;

    /** The connection ended before a byte of a reply came, as it does when a peer drops idle ones. */
    private static final class EndedByPeer extends Exception {
        private static final long serialVersionUID = 1L;

        EndedByPeer(IOException cause) {
            super(cause);
        }
    }

    TcpTransport(LineDefinition.Tcp endpoint, Duration replyTimeout, Duration connectTimeout, BridgeClock clock) {
        this.endpoint = endpoint;
        this.replyTimeout = replyTimeout;
        this.connectTimeout = connectTimeout;
        this.clock = clock;
    }

    /** A connection that turns out to have been ended by the peer is opened again, once, and asked anew. */
    @Override
    public Outcome read(ReadRequest request) {
        return transact(request, Pdu.encode(request));
    }

    /** Sends any data unit; what it may be is decided at {@link ReadFunctions}, on the bytes. */
    Outcome transact(ReadRequest request, byte[] pdu) {
        TcpConnection open = idleConnection();
        if (open != null) {
            try {
                return transact(open, request, pdu);
            } catch (EndedByPeer e) {
                drop();
            }
        }
        try {
            open = connect();
        } catch (IOException e) {
            drop();
            return new Outcome.NotConnected(endpoint + ": " + wordsOf(e));
        }
        Stamp askedAt = clock.now();
        try {
            return transact(open, request, pdu);
        } catch (EndedByPeer e) {
            drop();
            return new Outcome.Broken(endpoint + " ended the connection instead of replying", askedAt);
        }
    }

    private @Nullable TcpConnection idleConnection() {
        TcpConnection open = connection;
        try {
            if (open != null && open.hasStrayBytes()) {
                drop();
                return null;
            }
            return open;
        } catch (IOException e) {
            drop();
            return null;
        }
    }

    private TcpConnection connect() throws IOException {
        Socket next = new Socket();
        synchronized (closing) {
            if (closed) {
                throw new IOException("this line was closed");
            }
            socket = next;
        }
        TcpConnection open = TcpConnection.open(
                next, new InetSocketAddress(endpoint.host(), endpoint.port()), connectTimeout, clock);
        connection = open;
        return open;
    }

    private static String wordsOf(IOException e) {
        if (e instanceof java.net.UnknownHostException) {
            return "the host name cannot be resolved";
        }
        return e instanceof SocketTimeoutException
                ? "no answer to the connection request"
                : String.valueOf(e.getMessage());
    }

    private Outcome transact(TcpConnection open, ReadRequest request, byte[] pdu) throws EndedByPeer {
        transaction = transaction == LARGEST_TRANSACTION ? 1 : transaction + 1;
        byte[] frame = ReadFunctions.require(Mbap.frame(transaction, request.unit(), pdu), Mbap.FUNCTION_AT);
        Stamp askedAt = clock.now();
        Deadline deadline = Deadline.after(replyTimeout, clock);
        byte[] header = new byte[Mbap.BYTES];
        try {
            open.send(frame);
            int got = open.fill(header, 0, deadline);
            if (got == 0) {
                drop();
                return new Outcome.Silent(askedAt);
            }
            return settle(
                    got < header.length
                            ? cutOff(header, got, askedAt)
                            : body(open, header, request, deadline, askedAt));
        } catch (IOException e) {
            throw new EndedByPeer(e);
        }
    }

    private Outcome body(TcpConnection open, byte[] header, ReadRequest request, Deadline deadline, Stamp askedAt) {
        Mbap mbap = Mbap.parse(header);
        Optional<String> objection = mbap.objection(transaction, request.unit());
        if (objection.isPresent()) {
            return new Outcome.Broken(objection.get() + " in " + Mbap.hex(header, header.length), askedAt);
        }
        byte[] pdu = new byte[mbap.pduLength()];
        try {
            int got = open.fill(pdu, 0, deadline);
            return got < pdu.length ? cutOff(pdu, got, askedAt) : checked(request, pdu, askedAt);
        } catch (IOException e) {
            return new Outcome.Broken("the connection ended inside a reply: " + wordsOf(e), askedAt);
        }
    }

    private static Outcome cutOff(byte[] bytes, int got, Stamp askedAt) {
        return new Outcome.Broken(
                "only " + got + " of " + bytes.length + " bytes came in time: " + Mbap.hex(bytes, got), askedAt);
    }

    private static Outcome checked(ReadRequest request, byte[] pdu, Stamp askedAt) {
        Pdu.Content content = Pdu.decode(request, pdu);
        if (content instanceof Pdu.Content.Data data) {
            return new Outcome.Answered(Registers.of(data.words()), askedAt);
        }
        if (content instanceof Pdu.Content.Exception exception) {
            return new Outcome.Refused(exception.code(), askedAt);
        }
        return new Outcome.Broken(((Pdu.Content.Wrong) content).what(), askedAt);
    }

    private Outcome settle(Outcome outcome) {
        if (outcome instanceof Outcome.Broken) {
            drop();
        }
        return outcome;
    }

    private void drop() {
        TcpConnection open = connection;
        connection = null;
        if (open != null) {
            open.close();
        }
        closeSocket();
    }

    private void closeSocket() {
        synchronized (closing) {
            if (socket != null) {
                try {
                    socket.close();
                } catch (IOException ignored) {
                    // It is gone either way.
                }
                socket = null;
            }
        }
    }

    @Override
    public void close() {
        synchronized (closing) {
            closed = true;
        }
        closeSocket();
    }
}
