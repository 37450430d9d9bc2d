package burnerbridge.mqtt.documents;

import burnerbridge.control.JsonLine;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.Map;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.ObjectWriteContext;
import tools.jackson.core.PrettyPrinter;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;

/** Trees of maps and lists, and their text with an indentation that is the same on every machine. */
final class Json {
    private static final JsonFactory FACTORY = JsonFactory.builder().build();
    private static final DefaultIndenter INDENTER = new DefaultIndenter("  ", "\n");

    private Json() {}

    /** An object of names and values in turn. */
    static Map<String, Object> object(Object... namesAndValues) {
        Map<String, Object> object = new LinkedHashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            object.put((String) namesAndValues[i], namesAndValues[i + 1]);
        }
        return object;
    }

    static BigDecimal number(long number) {
        return BigDecimal.valueOf(number);
    }

    static String text(Map<String, Object> tree) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = FACTORY.createGenerator(new Indented(), text)) {
            JsonLine.write(json, tree);
        }
        return text + "\n";
    }

    private static final class Indented extends ObjectWriteContext.Base {
        @Override
        public PrettyPrinter getPrettyPrinter() {
            return new DefaultPrettyPrinter().withObjectIndenter(INDENTER).withArrayIndenter(INDENTER);
        }

        @Override
        public boolean hasPrettyPrinter() {
            return true;
        }
    }
}
