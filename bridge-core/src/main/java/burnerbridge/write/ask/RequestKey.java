package burnerbridge.write.ask;

import java.util.Arrays;

/**
 * By what a station's repeated request is known: who it is, the number that it gave to the request, and all its bytes.
 */
public final class RequestKey {
    private final Source source;
    private final int invokeId;
    private final byte[] bytes;

    /** @param bytes the whole request; copied */
    public RequestKey(Source source, int invokeId, byte[] bytes) {
        this.source = source;
        this.invokeId = invokeId;
        this.bytes = bytes.clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof RequestKey key
                && invokeId == key.invokeId
                && source.equals(key.source)
                && Arrays.equals(bytes, key.bytes);
    }

    @Override
    public int hashCode() {
        return 31 * (31 * source.hashCode() + invokeId) + Arrays.hashCode(bytes);
    }
}
