import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;

/**
 * Stands at the other end of the example site's lines and of its broker while the image is made, so that the bridge
 * loads what it needs with controllers that answer. Every register is 0; whatever is published is taken and forgotten.
 */
public final class Training {
    private interface Peer {
        void talk(DataInputStream in, OutputStream out) throws IOException;
    }

    public static void main(String[] arguments) throws IOException {
        // Free ports, so that nobody else is ever spoken to, whoever else is on the network of the build.
        int boilerHouse = listen(Training::rtu);
        int annex = listen(Training::modbusTcp);
        int broker = listen(Training::mqtt);
        System.out.println("ready " + boilerHouse + " " + annex + " " + broker);
    }

    private static int listen(Peer peer) throws IOException {
        ServerSocket server = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
        new Thread(() -> {
            while (true) {
                try (Socket socket = server.accept()) {
                    peer.talk(new DataInputStream(socket.getInputStream()), socket.getOutputStream());
                } catch (IOException e) {
                    // It has hung up; the next one may come.
                }
            }
        }).start();
        return server.getLocalPort();
    }

    private static void rtu(DataInputStream in, OutputStream out) throws IOException {
        byte[] request = new byte[8];
        while (true) {
            in.readFully(request);
            byte[] zeros = zeros(request[1], (request[4] & 0xff) << 8 | request[5] & 0xff);
            byte[] reply = new byte[zeros.length + 5];
            reply[0] = request[0];
            reply[1] = request[1];
            reply[2] = (byte) zeros.length;
            int check = 0xffff;
            for (int i = 0; i < reply.length - 2; i++) {
                check ^= reply[i] & 0xff;
                for (int bit = 0; bit < 8; bit++) {
                    check = (check & 1) == 1 ? check >> 1 ^ 0xa001 : check >> 1;
                }
            }
            reply[reply.length - 2] = (byte) check;
            reply[reply.length - 1] = (byte) (check >> 8);
            out.write(reply);
        }
    }

    private static void modbusTcp(DataInputStream in, OutputStream out) throws IOException {
        byte[] request = new byte[12];
        while (true) {
            in.readFully(request);
            byte[] zeros = zeros(request[7], (request[10] & 0xff) << 8 | request[11] & 0xff);
            byte[] reply = new byte[zeros.length + 9];
            System.arraycopy(request, 0, reply, 0, 8);
            reply[5] = (byte) (zeros.length + 3);
            reply[4] = (byte) (zeros.length + 3 >> 8);
            reply[8] = (byte) zeros.length;
            out.write(reply);
        }
    }

    /** Functions 1 and 2 read bits, 3 and 4 words. */
    private static byte[] zeros(int function, int count) {
        return new byte[function <= 2 ? (count + 7) / 8 : 2 * count];
    }

    /** Version 5, as the example site speaks it. */
    private static void mqtt(DataInputStream in, OutputStream out) throws IOException {
        while (true) {
            int head = in.readUnsignedByte();
            byte[] rest = new byte[length(in)];
            in.readFully(rest);
            switch (head >> 4) {
                case 1 -> out.write(new byte[] {0x20, 3, 0, 0, 0});
                case 3 -> {
                    if ((head & 0x06) != 0) {
                        int id = 2 + ((rest[0] & 0xff) << 8 | rest[1] & 0xff);
                        out.write(new byte[] {0x40, 2, rest[id], rest[id + 1]});
                    }
                }
                case 8 -> out.write(done(0x90, rest, 1));
                case 10 -> out.write(done(0xb0, rest, 0));
                case 12 -> out.write(new byte[] {(byte) 0xd0, 0});
                default -> {
                    return;
                }
            }
        }
    }

    /** Granted, for each filter; behind each stand so many bytes of options. */
    private static byte[] done(int head, byte[] rest, int options) {
        ByteArrayOutputStream answer = new ByteArrayOutputStream();
        answer.write(head);
        answer.write(0);
        answer.write(rest[0]);
        answer.write(rest[1]);
        answer.write(0);
        for (int at = 3 + rest[2]; at < rest.length; answer.write(0)) {
            at += 2 + ((rest[at] & 0xff) << 8 | rest[at + 1] & 0xff) + options;
        }
        byte[] whole = answer.toByteArray();
        whole[1] = (byte) (whole.length - 2);
        return whole;
    }

    private static int length(DataInputStream in) throws IOException {
        int length = 0;
        for (int shift = 0; ; shift += 7) {
            int part = in.readUnsignedByte();
            length |= (part & 0x7f) << shift;
            if (part < 0x80) {
                return length;
            }
        }
    }
}
