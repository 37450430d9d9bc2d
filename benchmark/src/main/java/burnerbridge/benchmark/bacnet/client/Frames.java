package burnerbridge.benchmark.bacnet.client;

import burnerbridge.benchmark.bacnet.device.Device;
import java.nio.ByteBuffer;

/** Datagrams made by hand from the encodings of ASHRAE 135, clause 20 and Annex J, and what is looked at in replies. */
public final class Frames {
    public static final int ROOM = 1500;
    public static final int SIMPLE_ACK = 0x20;
    public static final int COMPLEX_ACK = 0x30;
    public static final int UNCONFIRMED = 0x10;
    public static final int CONFIRMED = 0x00;
    /** Where a unicast without remote addresses has its application layer. */
    private static final int APPLICATION = 6;

    private static final int PRESENT_VALUE = 85;
    private static final int DEVICE_TYPE = 8;
    private static final int TYPE_SHIFT = 22;
    private static final int OBJECT_LIST = 76;
    private static final int STATUS_FLAGS = 111;
    /** The property, and its value between tags: a bit string of one octet with four bits unused, all clear. */
    private static final byte[] CLEAR_FLAGS = {0x29, STATUS_FLAGS, 0x4E, (byte) 0x82, 0x04, 0x00, 0x4F};

    private Frames() {}

    /** A request for Present_Value of an Analog Input; the reply has 23 octets. */
    public static int readProperty(ByteBuffer frame, int invokeId, int input) {
        begin(frame, invokeId, 0x0C);
        frame.put((byte) 0x0C).putInt(input).put((byte) 0x19).put((byte) PRESENT_VALUE);
        end(frame);
        return 23;
    }

    /** The same of several at once; the reply has 9 octets and 16 for each. */
    public static int readPropertyMultiple(ByteBuffer frame, int invokeId, int[] inputs) {
        begin(frame, invokeId, 0x0E);
        for (int input : inputs) {
            frame.put((byte) 0x0C).putInt(input).put((byte) 0x1E).put((byte) 0x09);
            frame.put((byte) PRESENT_VALUE).put((byte) 0x1F);
        }
        end(frame);
        return 9 + 16 * inputs.length;
    }

    /** A request for Status_Flags of several Analog Inputs at once. */
    public static void readFlags(ByteBuffer frame, int invokeId, int[] inputs) {
        begin(frame, invokeId, 0x0E);
        for (int input : inputs) {
            frame.put((byte) 0x0C).putInt(input).put((byte) 0x1E).put((byte) 0x09);
            frame.put((byte) STATUS_FLAGS).put((byte) 0x1F);
        }
        end(frame);
    }

    /** Whether a reply has an object none of whose four flags is set: no alarm, no fault, in service. */
    public static boolean hasClearFlags(ByteBuffer reply) {
        for (int at = APPLICATION; at + CLEAR_FLAGS.length <= reply.limit(); at++) {
            if (reply.slice(at, CLEAR_FLAGS.length).equals(ByteBuffer.wrap(CLEAR_FLAGS))) {
                return true;
            }
        }
        return false;
    }

    /** The whole object list of the device, which is refused where it needs segments. */
    public static void readObjectList(ByteBuffer frame, int invokeId) {
        begin(frame, invokeId, 0x0C);
        frame.put((byte) 0x0C).putInt(DEVICE_TYPE << TYPE_SHIFT | Device.INSTANCE);
        frame.put((byte) 0x19).put((byte) OBJECT_LIST);
        end(frame);
    }

    /** For eight hours, by process 18. */
    public static void subscribe(ByteBuffer frame, int invokeId, int input, boolean confirmed) {
        begin(frame, invokeId, 0x05);
        frame.put((byte) 0x09).put((byte) 18).put((byte) 0x1C).putInt(input);
        frame.put((byte) 0x29).put((byte) (confirmed ? 1 : 0));
        frame.put((byte) 0x3A).putShort((short) 28_800);
        end(frame);
    }

    /** Acknowledges a confirmed notification. */
    public static void acknowledge(ByteBuffer frame, int invokeId) {
        head(frame);
        frame.put((byte) SIMPLE_ACK).put((byte) invokeId).put((byte) 1);
        end(frame);
    }

    private static void begin(ByteBuffer frame, int invokeId, int service) {
        head(frame);
        frame.put((byte) 0x00).put((byte) 0x05).put((byte) invokeId).put((byte) service);
    }

    private static void head(ByteBuffer frame) {
        frame.clear();
        frame.put((byte) 0x81).put((byte) 0x0A).putShort((short) 0);
        frame.put((byte) 0x01).put((byte) 0x04);
    }

    private static void end(ByteBuffer frame) {
        frame.putShort(2, (short) frame.position());
        frame.flip();
    }

    /** The kind of a reply, by its first four bits. */
    public static int kind(ByteBuffer reply) {
        return reply.get(APPLICATION) & 0xF0;
    }

    /** Of an acknowledgement. */
    public static int invokeId(ByteBuffer reply) {
        return reply.get(APPLICATION + 1) & 0xFF;
    }

    /** Of a request to us. */
    public static int invokeIdOfRequest(ByteBuffer request) {
        return request.get(APPLICATION + 2) & 0xFF;
    }

    /** The REAL behind Present_Value in a notification; −1 where there is none. */
    public static int toldValue(ByteBuffer notification) {
        for (int at = APPLICATION; at + 8 <= notification.limit(); at++) {
            if (notification.get(at) == 0x09
                    && notification.get(at + 1) == PRESENT_VALUE
                    && notification.get(at + 2) == 0x2E
                    && notification.get(at + 3) == 0x44) {
                return (int) notification.getFloat(at + 4);
            }
        }
        return -1;
    }
}
