package burnerbridge.simulator.modbus;

import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** The units behind one server, and what becomes of requests for others. */
final class Units {
    private final Map<Integer, ReadFunctions> byIdentifier;
    private final UnknownUnit unknown;

    Units(Map<Integer, ? extends RegisterImage> images, UnknownUnit unknown) {
        this.byIdentifier = images.entrySet().stream()
                .collect(Collectors.toUnmodifiableMap(Map.Entry::getKey, e -> new ReadFunctions(e.getValue())));
        this.unknown = unknown;
    }

    /** The reply; empty where none is to be sent. */
    Optional<MbapFrame> replyTo(MbapFrame request) {
        if (request.protocol() != MbapFrame.MODBUS) {
            return Optional.empty();
        }
        ReadFunctions unit = byIdentifier.get(request.unit());
        if (unit != null) {
            return Optional.of(request.with(unit.replyTo(request.pdu())));
        }
        return unknown == UnknownUnit.SILENT
                ? Optional.empty()
                : Optional.of(request.with(ExceptionCode.GATEWAY_TARGET_FAILED.replyTo(request.pdu()[0] & 0xFF)));
    }
}
