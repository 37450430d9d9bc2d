package burnerbridge.mqtt.broker;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Optional;

/** Octets as they came, which nothing changes any more. */
public final class Octets {
    public static final Octets NONE = new Octets(new byte[0]);

    private final byte[] octets;

    private Octets(byte[] octets) {
        this.octets = octets;
    }

    /** @param octets copied */
    public static Octets of(byte[] octets) {
        return octets.length == 0 ? NONE : new Octets(octets.clone());
    }

    /** The UTF-8 of a text. */
    public static Octets of(String text) {
        return of(text.getBytes(StandardCharsets.UTF_8));
    }

    public int length() {
        return octets.length;
    }

    public boolean isEmpty() {
        return octets.length == 0;
    }

    public byte[] toArray() {
        return octets.clone();
    }

    /** As UTF-8, with a sign in the place of whatever is none. */
    public String text() {
        return new String(octets, StandardCharsets.UTF_8);
    }

    /** As UTF-8; empty where it is none. */
    public Optional<String> strictText() {
        try {
            return Optional.of(StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(octets))
                    .toString());
        } catch (CharacterCodingException e) {
            return Optional.empty();
        }
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Octets more && Arrays.equals(octets, more.octets);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(octets);
    }

    /** In hexadecimal. */
    @Override
    public String toString() {
        return HexFormat.of().formatHex(octets);
    }
}
