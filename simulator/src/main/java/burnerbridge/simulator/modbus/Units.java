package burnerbridge.simulator.modbus;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** The units behind one port, and what becomes of requests for others. For any number of threads. */
public final class Units {
    private final Map<Integer, ReadFunctions> byIdentifier;
    private final UnknownUnit unknown;

    /** @param images the register images by unit identifier */
    public Units(Map<Integer, ? extends RegisterImage> images, UnknownUnit unknown) {
        this.byIdentifier = images.entrySet().stream()
                .collect(Collectors.toUnmodifiableMap(Map.Entry::getKey, e -> new ReadFunctions(e.getValue())));
        this.unknown = unknown;
    }

    /** The identifiers of the units that are there. */
    public Set<Integer> identifiers() {
        return byIdentifier.keySet();
    }

    /**
     * The right reply to a request, both from the function code on.
     *
     * @param request holds at least the function code
     * @return empty where none is to be sent
     */
    public Optional<byte[]> replyTo(int unit, byte[] request) {
        ReadFunctions functions = byIdentifier.get(unit);
        if (functions != null) {
            return Optional.of(functions.replyTo(request));
        }
        return unknown == UnknownUnit.SILENT
                ? Optional.empty()
                : Optional.of(ExceptionCode.GATEWAY_TARGET_FAILED.replyTo(request[0] & 0xFF));
    }
}
