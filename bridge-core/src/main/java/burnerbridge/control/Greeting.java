package burnerbridge.control;

import java.math.BigDecimal;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a bridge says of itself to everybody who connects.
 *
 * @param version of the program
 * @param site its name
 */
public record Greeting(String version, String site, long pid) {

    String line() {
        return JsonLine.object(json -> {
            json.writeStringProperty("program", Protocol.PROGRAM);
            json.writeNumberProperty("protocol", Protocol.VERSION);
            json.writeStringProperty("version", version);
            json.writeStringProperty("site", site);
            json.writeNumberProperty("pid", pid);
        });
    }

    /**
     * Reads a greeting.
     *
     * @throws ControlException where it is none, or one of another protocol
     */
    static Greeting parse(Map<String, @Nullable Object> line) throws ControlException {
        if (!Protocol.PROGRAM.equals(line.get("program"))
                || !(line.get("protocol") instanceof BigDecimal protocol)
                || !(line.get("version") instanceof String version)) {
            throw new ControlException("what answers at the control socket is no burner-bridge");
        }
        if (protocol.compareTo(BigDecimal.valueOf(Protocol.VERSION)) != 0) {
            throw new ControlException("the running bridge is version " + version + " and speaks version "
                    + protocol.toPlainString() + " of the control protocol; this program speaks " + Protocol.VERSION
                    + ": use the program of the same version as the bridge");
        }
        if (line.get("site") instanceof String site && line.get("pid") instanceof BigDecimal pid) {
            return new Greeting(version, site, pid.longValue());
        }
        throw new ControlException("the running bridge greets in a way that this program does not know");
    }
}
