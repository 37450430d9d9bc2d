package burnerbridge.control;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** One request as it came: its name and what it says besides, which nobody has checked. */
public record Request(String name, Map<String, @Nullable Object> arguments) {

    static Request parse(String line) throws RequestException {
        try {
            Map<String, @Nullable Object> members = JsonLine.parse(line);
            if (members.remove("ask") instanceof String name) {
                return new Request(name, members);
            }
            throw new RequestException("no-request", "a request needs the member \"ask\"");
        } catch (IllegalArgumentException e) {
            throw new RequestException("no-request", "a request is one JSON object on a line");
        }
    }

    /** A text that must be there. */
    public String text(String key) throws RequestException {
        if (arguments.get(key) instanceof String text) {
            return text;
        }
        throw new RequestException("bad-argument", key + " must be a text");
    }

    /** A list of texts; empty where there is none. */
    public List<String> texts(String key) throws RequestException {
        Object value = arguments.get(key);
        if (value == null) {
            return List.of();
        }
        if (value instanceof List<?> list && list.stream().allMatch(String.class::isInstance)) {
            return list.stream().map(String.class::cast).toList();
        }
        throw new RequestException("bad-argument", key + " must be a list of texts");
    }

    /** A whole number from 0 on; the given one where there is none. */
    public int count(String key, int otherwise) throws RequestException {
        Object value = arguments.get(key);
        if (value == null) {
            return otherwise;
        }
        try {
            if (value instanceof BigDecimal number && number.signum() >= 0) {
                return number.intValueExact();
            }
        } catch (ArithmeticException e) {
            throw new RequestException("bad-argument", key + " must be a whole number of at most " + Integer.MAX_VALUE);
        }
        throw new RequestException("bad-argument", key + " must be a whole number from 0 on");
    }
}
