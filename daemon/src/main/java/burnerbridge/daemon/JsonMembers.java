package burnerbridge.daemon;

import burnerbridge.control.JsonLine;
import java.math.BigDecimal;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;

/** The members of a JSON object in their order; what is not there is null, so that every name is always there. */
final class JsonMembers {
    private final Map<String, @Nullable Object> members = new LinkedHashMap<>();

    JsonMembers put(String name, @Nullable Object value) {
        members.put(name, value);
        return this;
    }

    JsonMembers number(String name, long value) {
        return put(name, BigDecimal.valueOf(value));
    }

    JsonMembers number(String name, OptionalInt value) {
        return put(name, value.isPresent() ? BigDecimal.valueOf(value.getAsInt()) : null);
    }

    JsonMembers optional(String name, Optional<?> value) {
        return put(name, value.orElse(null));
    }

    /** Null where a text is empty. */
    JsonMembers filled(String name, String text) {
        return put(name, text.isEmpty() ? null : text);
    }

    Map<String, @Nullable Object> map() {
        return Collections.unmodifiableMap(members);
    }

    /** On one line. */
    String text() {
        return JsonLine.value(members);
    }
}
