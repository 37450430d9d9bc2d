package burnerbridge.bacnet.edge.coding;

import java.io.ByteArrayOutputStream;

/** Puts octets together, most significant first. */
public final class OctetWriter {
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();

    public OctetWriter u8(int octet) {
        out.write(octet);
        return this;
    }

    public OctetWriter u16(int number) {
        return u8(number >>> 8).u8(number);
    }

    public OctetWriter u32(long number) {
        return u16((int) (number >>> 16) & 0xFFFF).u16((int) number & 0xFFFF);
    }

    public OctetWriter octets(Octets octets) {
        out.writeBytes(octets.toArray());
        return this;
    }

    /** A context tag with an unsigned number in as few octets as it needs (ASHRAE 135, 20.2.4). */
    public OctetWriter contextUnsigned(int tag, long number) {
        int length = Math.max(1, (64 - Long.numberOfLeadingZeros(number) + 7) / 8);
        u8(tag << 4 | 0x08 | length);
        for (int shift = (length - 1) * 8; shift >= 0; shift -= 8) {
            u8((int) (number >>> shift) & 0xFF);
        }
        return this;
    }

    public Octets done() {
        byte[] bytes = out.toByteArray();
        return Octets.copyOf(bytes, bytes.length);
    }
}
