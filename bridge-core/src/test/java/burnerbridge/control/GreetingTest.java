package burnerbridge.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GreetingTest {
    private static final Greeting GREETING = new Greeting("0.1.0", "quillmere", 4711);

    @Test
    void whatIsSaidIsUnderstood() throws ControlException {
        assertThat(GREETING.line())
                .isEqualTo("{\"program\":\"burner-bridge\",\"protocol\":1,\"version\":\"0.1.0\","
                        + "\"site\":\"quillmere\",\"pid\":4711}");
        assertThat(Greeting.parse(JsonLine.parse(GREETING.line()))).isEqualTo(GREETING);
    }

    @Test
    void anotherProtocolIsToldInWords() {
        String newer =
                GREETING.line().replace("\"protocol\":1", "\"protocol\":2").replace("0.1.0", "3.0.0");
        assertThatThrownBy(() -> Greeting.parse(JsonLine.parse(newer)))
                .isInstanceOf(ControlException.class)
                .hasMessageContaining("is version 3.0.0 and speaks version 2")
                .hasMessageContaining("this program speaks 1");
    }

    @ParameterizedTest
    @ValueSource(strings = {"{}", "{\"program\":\"other\",\"protocol\":1,\"version\":\"1\"}"})
    void anotherProgramIsToldInWords(String line) {
        assertThatThrownBy(() -> Greeting.parse(JsonLine.parse(line)))
                .isInstanceOf(ControlException.class)
                .hasMessageContaining("no burner-bridge");
    }
}
