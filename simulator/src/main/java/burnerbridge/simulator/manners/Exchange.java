package burnerbridge.simulator.manners;

import burnerbridge.simulator.frame.Frame;
import burnerbridge.simulator.frame.Transport;
import java.time.Duration;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Supplier;

/** A request that has come and the right reply to it. */
public final class Exchange {
    private static final int EXCEPTION = 0x80;

    private final Transport transport;
    private final Frame request;
    private final Frame reply;
    private final BiFunction<Integer, byte[], Optional<byte[]>> units;
    private final Duration silence;
    private final Supplier<Duration> age;

    /**
     * @param units the right reply of a unit to any data unit; empty where there is none
     * @param silence what must lie between two frames
     * @param age for how long the request has been there
     */
    public Exchange(
            Transport transport,
            Frame request,
            Frame reply,
            BiFunction<Integer, byte[], Optional<byte[]>> units,
            Duration silence,
            Supplier<Duration> age) {
        this.transport = transport;
        this.request = request;
        this.reply = reply;
        this.units = units;
        this.silence = silence;
        this.age = age;
    }

    public Transport transport() {
        return transport;
    }

    public Frame request() {
        return request;
    }

    /** The right reply. */
    public Frame reply() {
        return reply;
    }

    /** Whether the right reply is an exception. */
    public boolean isRefused() {
        return reply.function() >= EXCEPTION;
    }

    /** What must lie between two frames: 3.5 characters or 1.75 ms; nothing on Modbus TCP. */
    public Duration silence() {
        return silence;
    }

    /** For how long the request has been there by now. */
    public Duration age() {
        return age.get();
    }

    /** What a unit would rightly answer to another request; empty where it would not answer. */
    public Optional<Frame> replyTo(Frame other) {
        return units.apply(other.unit(), other.pdu()).map(other::withPdu);
    }

    /** The bytes of any frame on this transport. */
    public byte[] bytes(Frame frame) {
        return transport.bytes(frame);
    }

    /** Sends a frame. */
    public Act.Send send(Frame frame) {
        return new Act.Send(bytes(frame));
    }

    /** Sends the right reply. */
    public Act.Send rightly() {
        return send(reply);
    }

    /** Sends an exception in place of the reply. */
    public Act.Send refusal(int code) {
        return send(reply.withPdu(new byte[] {(byte) (request.function() | EXCEPTION), (byte) code}));
    }
}
