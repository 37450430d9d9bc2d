package burnerbridge.web.http;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The head of a request.
 *
 * @param target as it was sent, in printable characters of ASCII; nothing in it is decoded
 * @param minor 0 or 1, of HTTP/1
 * @param headers by their names in lower case, in the order in which they came
 */
public record Request(String method, String target, int minor, Map<String, List<String>> headers) {

    public Request {
        headers = Map.copyOf(headers);
    }

    /** The value of a header that stands there once; empty where there is none or more than one. */
    public Optional<String> single(String name) {
        List<String> values = headers.getOrDefault(name, List.of());
        return values.size() == 1 ? Optional.of(values.get(0)) : Optional.empty();
    }

    public boolean has(String name) {
        return headers.containsKey(name);
    }

    /** Whether anything follows the head, as far as the head says. */
    public boolean hasBody() {
        return has("transfer-encoding")
                || headers.getOrDefault("content-length", List.of("0")).stream()
                        .anyMatch(length -> !length.equals("0"));
    }
}
