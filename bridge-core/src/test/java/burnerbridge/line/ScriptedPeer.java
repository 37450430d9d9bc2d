package burnerbridge.line;

import com.ghgande.j2mod.modbus.util.ModbusUtil;
import java.io.Closeable;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;

/** A Modbus peer that does, request by request, exactly what a test says. */
public abstract class ScriptedPeer implements AutoCloseable {
    /** One act of the script: what to do with a request. */
    public interface Act {
        void play(byte[] request, OutputStream out, Closeable connection) throws IOException, InterruptedException;
    }

    /** How this peer frames its data units; written down here once more, apart from what is tested. */
    public enum Shape {
        TCP {
            @Override
            public byte[] frame(byte[] request, int unit, String pdu) {
                byte[] data = hex(pdu);
                byte[] frame = new byte[7 + data.length];
                frame[0] = request[0];
                frame[1] = request[1];
                frame[5] = (byte) (data.length + 1);
                frame[6] = (byte) unit;
                System.arraycopy(data, 0, frame, 7, data.length);
                return frame;
            }

            @Override
            byte[] request(DataInputStream in) throws IOException {
                byte[] header = in.readNBytes(6);
                return header.length < 6 ? header : with(header, in, header[4] << 8 | header[5] & 0xFF);
            }
        },
        RTU {
            @Override
            public byte[] frame(byte[] request, int unit, String pdu) {
                byte[] data = hex(pdu);
                byte[] frame = new byte[data.length + 3];
                frame[0] = (byte) unit;
                System.arraycopy(data, 0, frame, 1, data.length);
                int[] lowThenHigh = ModbusUtil.calculateCRC(frame, 0, data.length + 1);
                frame[data.length + 1] = (byte) lowThenHigh[0];
                frame[data.length + 2] = (byte) lowThenHigh[1];
                return frame;
            }

            @Override
            byte[] request(DataInputStream in) throws IOException {
                byte[] head = in.readNBytes(7);
                if (head.length < 7) {
                    return head;
                }
                return switch (head[1]) {
                    case 15, 16 -> with(head, in, (head[6] & 0xFF) + 2);
                    case 22 -> with(head, in, 3);
                    default -> with(head, in, 1);
                };
            }
        };

        public abstract byte[] frame(byte[] request, int unit, String pdu);

        /** The next request; shorter than one where the connection has ended. */
        abstract byte[] request(DataInputStream in) throws IOException;

        private static byte[] with(byte[] begin, DataInputStream in, int more) throws IOException {
            byte[] whole = Arrays.copyOf(begin, begin.length + more);
            in.readFully(whole, begin.length, more);
            return whole;
        }
    }

    public static final int UNIT = 17;

    final Shape shape;
    final List<byte[]> requests = new CopyOnWriteArrayList<>();
    final AtomicInteger connections = new AtomicInteger();
    private final Queue<Act> script = new ConcurrentLinkedQueue<>();
    private volatile @Nullable Act otherwise;

    ScriptedPeer(Shape shape) {
        this.shape = shape;
    }

    public static byte[] hex(String text) {
        return HexFormat.of().parseHex(text.replace(" ", ""));
    }

    ScriptedPeer then(Act act) {
        script.add(act);
        return this;
    }

    /** Answers with a data unit in a right frame. */
    ScriptedPeer answers(String pdu) {
        return then((request, out, connection) -> out.write(reply(request, pdu)));
    }

    /** What to answer whenever the script has come to its end. */
    ScriptedPeer answersFromThenOn(String pdu) {
        otherwise = (request, out, connection) -> out.write(reply(request, pdu));
        return this;
    }

    byte[] reply(byte[] request, String pdu) {
        return shape.frame(request, UNIT, pdu);
    }

    /** Serves one connection until it ends. */
    void serve(InputStream in, OutputStream out, Closeable connection) {
        try (connection) {
            DataInputStream data = new DataInputStream(in);
            while (true) {
                byte[] request = shape.request(data);
                if (request.length < 8) {
                    return;
                }
                requests.add(request);
                Act act = script.poll();
                act = act == null ? otherwise : act;
                if (act != null) {
                    act.play(request, out, connection);
                }
            }
        } catch (IOException | InterruptedException e) {
            // The connection ended.
        }
    }

    static void start(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    @Override
    public abstract void close();
}
