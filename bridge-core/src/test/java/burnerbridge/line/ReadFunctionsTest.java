package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class ReadFunctionsTest {

    @Test
    void onlyReadingFunctionsPassTheLastCheck() {
        for (int function = 0; function < 256; function++) {
            byte[] frame = {0, 0, 0, 0, 0, 2, 1, (byte) function};
            if (function >= 1 && function <= 4) {
                assertThat(ReadFunctions.require(frame, 7)).isSameAs(frame);
            } else {
                assertThatThrownBy(() -> ReadFunctions.require(frame, 7))
                        .isInstanceOf(IllegalStateException.class)
                        .hasMessageContaining("nothing was sent");
            }
        }
    }
}
