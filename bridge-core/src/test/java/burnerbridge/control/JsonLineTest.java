package burnerbridge.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class JsonLineTest {

    @Test
    void everyDigitOfANumberIsKept() {
        String line = "{\"a\":42.50,\"b\":9007199254740993,\"c\":[true,null,\"x\"],\"d\":{\"e\":-0.10}}";
        assertThat(JsonLine.value(JsonLine.parse(line))).isEqualTo(line);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "ask",
                "[]",
                "{",
                "{\"a\":1}{\"b\":2}",
                "{\"a\":1} x",
                "{\"a\":1,\"a\":2}",
                "{'a':1}",
                "{\"a\":NaN}",
                "{\"a\":[[[[[[[[[[1]]]]]]]]]]}",
                "\u0000\u0001"
            })
    void anythingButOneObjectIsRefused(String line) {
        assertThatThrownBy(() -> JsonLine.parse(line)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void textIsKeptOnOneLine() {
        String line = JsonLine.object(json -> json.writeStringProperty("text", "one\ntwo\u2028°"));
        assertThat(line).doesNotContain("\n");
        assertThat(JsonLine.parse(line)).containsEntry("text", "one\ntwo\u2028°");
    }
}
