package burnerbridge.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class RegistersTest {

    @Test
    void wordsAreUnsignedAndShownAsFourDigits() {
        Registers registers = Registers.of(0x42F6, 0xE979, 0xFFFF);
        assertThat(registers.hex()).isEqualTo("42F6 E979 FFFF");
        assertThat(registers.word(2)).isEqualTo(65535);
        assertThat(registers.slice(1, 2)).isEqualTo(Registers.of(0xE979, 0xFFFF));
    }

    @Test
    void aWordPastSixteenBitsIsRefused() {
        assertThatThrownBy(() -> Registers.of(65536)).hasMessageContaining("was 65536");
        assertThatThrownBy(() -> Registers.of(-1)).hasMessageContaining("was -1");
    }
}
