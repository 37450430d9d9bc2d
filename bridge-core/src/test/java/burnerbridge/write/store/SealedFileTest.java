package burnerbridge.write.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.Seed;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SealedFileTest {
    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
    private final SealedFile file = new SealedFile(disk, "kept", 3);

    private static String texts(SealedFile.Content content) {
        return content.head().text("of")
                + content.rows().stream()
                        .map(row -> row.text("a") + row.whole("n"))
                        .toList();
    }

    private void write() throws IOException {
        file.write(
                Map.of("of", "ü \n\u0000"),
                List.of(Map.of("a", "x", "n", BigDecimal.ONE), Map.of("a", "y\"", "n", BigDecimal.TEN)));
    }

    @Test
    void whatWasWrittenIsRead() throws IOException {
        write();
        assertThat(file.read(SealedFileTest::texts)).contains("ü \n\u0000[x1, y\"10]");
    }

    @Test
    void aMissingFileIsNotADamagedOne() throws IOException {
        assertThat(file.read(SealedFileTest::texts)).isEmpty();
    }

    @Test
    void theHashOfTheLastLineIsThatOfAllBeforeIt() throws IOException {
        disk.replace("kept", new byte[0]);
        write();
        String text = new String(disk.look("kept"), StandardCharsets.UTF_8);
        int last = text.lastIndexOf("{\"sha256\"");
        assertThat(text.substring(last))
                .isEqualTo("{\"sha256\":\"" + Sha256.hex(text.substring(0, last).getBytes(StandardCharsets.UTF_8))
                        + "\"}\n");
    }

    /** FIPS 180-4 names the function; the digest of "abc" is that of the standard's example, from memory. */
    @Test
    void theHashIsThatOfTheStandard() {
        assertThat(Sha256.hex("abc".getBytes(StandardCharsets.US_ASCII)))
                .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    @Test
    void everyDamageIsTold() throws IOException {
        write();
        byte[] whole = disk.look("kept");
        Random dice = new Random(Seed.value());
        for (int i = 0; i < whole.length; i++) {
            byte[] flipped = whole.clone();
            flipped[i] ^= (byte) (1 << dice.nextInt(8));
            requireDamaged(flipped);
            requireDamaged(Arrays.copyOf(whole, i));
        }
        requireDamaged(Arrays.copyOf(whole, whole.length + 1));
        requireDamaged(new byte[4096]);
    }

    private void requireDamaged(byte[] content) {
        disk.meddle("kept", content);
        assertThatThrownBy(() -> file.read(SealedFileTest::texts))
                .isInstanceOf(DamagedFileException.class)
                .hasMessageContaining("the file kept is damaged");
    }

    @Test
    void anotherVersionAndTheCopyOfAnotherFileAreRefused() throws IOException {
        new SealedFile(disk, "kept", 4).write(Map.of(), List.of());
        assertThatThrownBy(() -> file.read(SealedFileTest::texts)).hasMessageContaining("version 4");
        new SealedFile(disk, "other", 3).write(Map.of("of", ""), List.of());
        disk.meddle("kept", disk.look("other"));
        assertThatThrownBy(() -> file.read(SealedFileTest::texts)).hasMessageContaining("a copy of other");
    }

    @Test
    void aReaderThatMissesSomethingIsToldSo() throws IOException {
        file.write(Map.of("of", "x"), List.of(Map.of("a", "x")));
        assertThatThrownBy(() -> file.read(SealedFileTest::texts))
                .isInstanceOf(DamagedFileException.class)
                .hasMessageContaining("'n' is no number");
    }
}
