package burnerbridge.write.store;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The members of one JSON object that was read; each is what it should be, or an {@link IllegalArgumentException} says so. */
public record Fields(Map<String, @Nullable Object> members) {

    public boolean has(String name) {
        return members.get(name) != null;
    }

    public String text(String name) {
        if (members.get(name) instanceof String text) {
            return text;
        }
        throw new IllegalArgumentException("'" + name + "' is no text (was " + members.get(name) + ")");
    }

    public BigDecimal number(String name) {
        if (members.get(name) instanceof BigDecimal number) {
            return number;
        }
        throw new IllegalArgumentException("'" + name + "' is no number (was " + members.get(name) + ")");
    }

    /** A whole number of 64 bits. */
    public long whole(String name) {
        try {
            return number(name).longValueExact();
        } catch (ArithmeticException e) {
            throw new IllegalArgumentException("'" + name + "' is no whole number (was " + number(name) + ")", e);
        }
    }

    public boolean flag(String name) {
        if (members.get(name) instanceof Boolean flag) {
            return flag;
        }
        throw new IllegalArgumentException("'" + name + "' is not true or false (was " + members.get(name) + ")");
    }

    /** An object within this one. */
    public Fields object(String name) {
        return of(members.get(name));
    }

    /** A list of texts. */
    public List<String> texts(String name) {
        List<String> texts = new ArrayList<>();
        for (Object element : list(name)) {
            if (!(element instanceof String text)) {
                throw new IllegalArgumentException("'" + name + "' is no list of texts");
            }
            texts.add(text);
        }
        return texts;
    }

    private List<?> list(String name) {
        if (members.get(name) instanceof List<?> list) {
            return list;
        }
        throw new IllegalArgumentException("'" + name + "' is no list (was " + members.get(name) + ")");
    }

    private static Fields of(@Nullable Object value) {
        if (!(value instanceof Map<?, ?> map)) {
            throw new IllegalArgumentException("there is no object where one belongs (was " + value + ")");
        }
        Map<String, @Nullable Object> members = new java.util.LinkedHashMap<>();
        map.forEach((key, member) -> members.put(String.valueOf(key), member));
        return new Fields(members);
    }
}
