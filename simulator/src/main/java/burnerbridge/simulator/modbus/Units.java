package burnerbridge.simulator.modbus;

import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The units behind one port, and what becomes of requests for others. For any number of threads. */
public final class Units {
    private final Map<Integer, RegisterImage> byIdentifier;
    private final UnknownUnit unknown;

    /** @param images the register images by unit identifier */
    public Units(Map<Integer, ? extends RegisterImage> images, UnknownUnit unknown) {
        this.byIdentifier = Map.copyOf(images);
        this.unknown = unknown;
    }

    /** The identifiers of the units that are there. */
    public Set<Integer> identifiers() {
        return byIdentifier.keySet();
    }

    /**
     * The right reply to a request, both from the function code on. Nothing is written by it.
     *
     * @param request holds at least the function code
     * @return empty where none is to be sent
     */
    public Optional<byte[]> replyTo(int unit, byte[] request) {
        RegisterImage image = byIdentifier.get(unit);
        if (image != null) {
            return Optional.of(replyTo(image, request));
        }
        return unknown == UnknownUnit.SILENT
                ? Optional.empty()
                : Optional.of(ExceptionCode.GATEWAY_TARGET_FAILED.replyTo(request[0] & 0xFF));
    }

    private static byte[] replyTo(RegisterImage image, byte[] request) {
        if (!(image instanceof WritableImage writable) || !writable.takesWrites() || !WriteFunctions.has(request)) {
            return new ReadFunctions(image).replyTo(request);
        }
        int function = request[0] & 0xFF;
        Optional<Write> write = WriteFunctions.understood(request);
        if (write.isEmpty()) {
            return ExceptionCode.ILLEGAL_DATA_VALUE.replyTo(function);
        }
        return switch (verdict(writable, write.get())) {
            case ACCEPTED -> WriteFunctions.replyTo(request);
            case NO_ADDRESS -> ExceptionCode.ILLEGAL_DATA_ADDRESS.replyTo(function);
            case NO_VALUE -> ExceptionCode.ILLEGAL_DATA_VALUE.replyTo(function);
        };
    }

    private static WritableImage.Verdict verdict(WritableImage image, Write write) {
        return after(image, write)
                .map(values -> image.judge(write.table(), write.address(), values))
                .orElse(WritableImage.Verdict.NO_ADDRESS);
    }

    /** What is there after a write; empty where one of the addresses does not exist. */
    private static Optional<int[]> after(WritableImage image, Write write) {
        return image.read(write.table(), write.address(), write.values().length).map(write::onto);
    }

    /** What a request wants to write, where its unit accepts that. */
    public Optional<Write> accepted(int unit, byte[] request) {
        return byIdentifier.get(unit) instanceof WritableImage image && image.takesWrites()
                ? WriteFunctions.understood(request)
                        .filter(write -> verdict(image, write) == WritableImage.Verdict.ACCEPTED)
                : Optional.empty();
    }

    /**
     * Does what a request wants, unless it is not accepted any more.
     *
     * @return the write that would bring back what was there before; empty where nothing was written
     */
    public Optional<Write> apply(int unit, Write write) {
        if (!(byIdentifier.get(unit) instanceof WritableImage image)) {
            return Optional.empty();
        }
        synchronized (image) {
            Optional<int[]> before = image.read(write.table(), write.address(), write.values().length);
            if (before.isEmpty() || verdict(image, write) != WritableImage.Verdict.ACCEPTED) {
                return Optional.empty();
            }
            image.write(write.table(), write.address(), write.onto(before.get()));
            return Optional.of(new Write(write.table(), write.address(), before.get()));
        }
    }
}
