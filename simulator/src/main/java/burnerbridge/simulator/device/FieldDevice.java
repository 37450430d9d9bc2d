package burnerbridge.simulator.device;

import burnerbridge.simulator.clock.MachineTicker;
import burnerbridge.simulator.clock.Ticker;
import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.manners.WriteManners;
import burnerbridge.simulator.modbus.RegisterImage;
import burnerbridge.simulator.modbus.Units;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A field device with several units. It is read by functions 1 to 4; units whose image can be written take functions 5,
 * 6, 15, 16 and 22, all others refuse those with exception 1. On TCP it takes several clients; RTU frames come and go at
 * the rate of its serial line. It can be stopped and started again, its cable can be pulled, after which clients still
 * connect and are never answered, and it misbehaves on command. Whatever comes that is no read is recorded.
 *
 * <p>All methods may be called by any thread.
 */
public final class FieldDevice implements AutoCloseable {
    private final Door door;
    private final Ticker ticker = new MachineTicker();
    private final Behaviour behaviour;
    private int number;
    private @Nullable Port port;
    private boolean closed;

    /** @param images the register images by unit identifier */
    public FieldDevice(Door door, Map<Integer, ? extends RegisterImage> images, UnknownUnit unknown) {
        this.door = door;
        this.number = wanted(door);
        this.behaviour = new Behaviour(door.transport(), new Units(images, unknown), silence(door), ticker);
    }

    private static int wanted(Door door) {
        if (door instanceof Door.ModbusTcp tcp) {
            return tcp.port();
        }
        return door instanceof Door.RtuOverTcp rtu ? rtu.port() : 0;
    }

    private static Duration silence(Door door) {
        if (door instanceof Door.RtuSerial serial) {
            return serial.rate().silence();
        }
        return door instanceof Door.RtuOverTcp rtu ? rtu.rate().silence() : Duration.ZERO;
    }

    /**
     * Opens its door; without effect where it is open.
     *
     * @throws java.net.BindException where the port is taken
     * @throws IOException where the serial port cannot be opened
     */
    public synchronized void start() throws IOException {
        if (closed) {
            throw new IllegalStateException("the device at " + door + " is closed");
        }
        if (port == null) {
            Port opened = opened();
            number = opened.number();
            port = opened;
        }
    }

    private Port opened() throws IOException {
        if (door instanceof Door.ModbusTcp tcp) {
            return Listener.open(
                    new InetSocketAddress(tcp.host(), number),
                    (socket, refusal) -> new ClientConnection(socket, behaviour, ticker, refusal));
        }
        if (door instanceof Door.RtuOverTcp rtu) {
            return DeviceServer.open(new InetSocketAddress(rtu.host(), number), behaviour, rtu.rate(), ticker);
        }
        Door.RtuSerial serial = (Door.RtuSerial) door;
        return SerialDevice.open(serial.port(), behaviour, serial.rate(), ticker);
    }

    /** Closes its door and every connection, as a device does that loses its power. */
    public synchronized void stop() {
        Port stopped = port;
        port = null;
        if (stopped != null) {
            stopped.close();
        }
    }

    /** From now on it treats requests so; {@link Manners#WELL} at first. */
    public void behave(Manners manners) {
        behaviour.become(manners);
    }

    /** From now on it does so with writes that it accepts; {@link WriteManners#WELL} at first. */
    public void behaveTowardWrites(WriteManners manners) {
        behaviour.becomeTowardWrites(manners);
    }

    /** Every frame so far that was no read, in order; one a frame, whatever became of it. */
    public List<WrittenFrame> written() {
        return behaviour.written();
    }

    /** From now on requests are read and not answered. */
    public void pullCable() {
        behaviour.pullCable(true);
    }

    /** From now on requests are answered again; those that came in between stay unanswered. */
    public void plugCableIn() {
        behaviour.pullCable(false);
    }

    /** From now on requests to one unit are read and not answered, those to the others are. */
    public void pullCable(int unit) {
        behaviour.pullCable(unit, true);
    }

    /** From now on that unit answers again. */
    public void plugCableIn(int unit) {
        behaviour.pullCable(unit, false);
    }

    /** The TCP port that it listens on; 0 before the first start with any free one, and on a serial port. */
    public synchronized int port() {
        return number;
    }

    public Transport transport() {
        return door.transport();
    }

    @Override
    public synchronized void close() {
        closed = true;
        stop();
    }
}
