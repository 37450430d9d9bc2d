package burnerbridge.config;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;
import tools.jackson.databind.node.ObjectNode;

/** Every key of the schema, found by walking it. */
final class SchemaKeys {
    /** Stands in a path for the names that a site gives. */
    static final String NAME = "NAME";
    /** Stands in a path for each entry of a list. */
    static final String ITEM = "ITEM";

    /**
     * A key that holds no keys of a closed list.
     *
     * @param path such as {@code lines.NAME.tcp.port}
     * @param schema with what it refers to put in
     */
    record Key(String path, JsonNode schema, boolean required) {
        @Override
        public String toString() {
            return path;
        }
    }

    private final JsonNode top = new ObjectMapper().readTree(SiteSchema.text());
    private final List<Key> keys = new ArrayList<>();
    private final Map<String, Set<String>> known = new TreeMap<>();

    SchemaKeys() {
        walk("", top);
    }

    List<Key> keys() {
        return keys;
    }

    /** The words that each mapping with a closed list knows, by its path; that of the whole file is empty. */
    Map<String, Set<String>> known() {
        return known;
    }

    private void walk(String path, JsonNode schema) {
        known.put(path, new TreeSet<>(schema.get("properties").propertyNames()));
        Set<String> required = new TreeSet<>();
        schema.path("required").forEach(word -> required.add(word.asString()));
        schema.get("properties").properties().forEach(property -> {
            String at = path.isEmpty() ? property.getKey() : path + "." + property.getKey();
            value(at, resolved(property.getValue()), required.contains(property.getKey()));
        });
    }

    private void value(String path, JsonNode schema, boolean required) {
        JsonNode named = schema.path("additionalProperties");
        if (named.isObject()) {
            walk(path + "." + NAME, resolved(named));
        } else if (schema.has("properties")) {
            walk(path, schema);
        } else {
            keys.add(new Key(path, schema, required));
            JsonNode items = resolved(schema.path("items"));
            if (items.has("properties")) {
                walk(path + "." + ITEM, items);
            }
        }
    }

    private JsonNode resolved(JsonNode schema) {
        if (!schema.isObject() || !schema.has("$ref")) {
            return schema;
        }
        String name = schema.get("$ref").asString().substring("#/$defs/".length());
        ObjectNode whole = (ObjectNode) top.get("$defs").get(name).deepCopy();
        whole.setAll((ObjectNode) schema);
        return whole;
    }
}
