package burnerbridge.write.store;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.Seed;
import java.io.IOException;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

class ForgetfulDiskTest {
    private static byte[] bytes(String text) {
        return text.getBytes(US_ASCII);
    }

    private static String text(Disk disk, String name) throws IOException {
        return new String(disk.read(name), US_ASCII);
    }

    @Test
    void whatWasNotForcedIsGoneButForAnyBeginningOfIt() throws IOException {
        TreeSet<String> left = new TreeSet<>();
        for (int i = 0; i < 200; i++) {
            ForgetfulDisk disk = new ForgetfulDisk(Seed.value() + i);
            disk.append("a", bytes("kept"));
            disk.force("a");
            disk.append("a", bytes("lost"));
            disk.crash();
            left.add(text(disk, "a"));
        }
        assertThat(left).containsExactly("kept", "keptl", "keptlo", "keptlos", "keptlost");
    }

    @Test
    void whatWasReplacedCutBackOrTakenAwayStaysSo() throws IOException {
        ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
        disk.replace("whole", bytes("one"));
        disk.replace("whole", bytes("two"));
        disk.append("cut", bytes("back"));
        disk.truncate("cut", 1);
        disk.append("gone", bytes("x"));
        disk.force("gone");
        disk.delete("gone");
        disk.crash();
        assertThat(text(disk, "whole")).isEqualTo("two");
        assertThat(text(disk, "cut")).isEqualTo("b");
        assertThat(disk.holds("gone")).isFalse();
    }

    @Test
    void thePowerGoesAtTheOperationThatWasSaidAndStaysAway() throws IOException {
        ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
        disk.crashAt(2);
        disk.replace("a", bytes("1"));
        assertThatThrownBy(() -> disk.replace("a", bytes("2"))).isInstanceOf(ForgetfulDisk.PowerCut.class);
        assertThatThrownBy(() -> disk.read("a")).isInstanceOf(ForgetfulDisk.PowerCut.class);
        disk.crash();
        assertThat(text(disk, "a")).isIn("1", "2");
    }

    @Test
    void aFullDiskTakesWhatFitsAndTheReserveMakesRoom() throws IOException {
        ForgetfulDisk disk = new ForgetfulDisk(Seed.value(), 10);
        disk.keepReserve();
        disk.append("a", bytes("1234"));
        disk.leaveRoomFor(2);
        assertThatThrownBy(() -> disk.append("a", bytes("5678"))).hasMessageContaining("full");
        assertThat(text(disk, "a")).isEqualTo("123456");
        assertThat(disk.giveUpReserve()).isTrue();
        disk.append("a", bytes("78"));
        assertThatThrownBy(disk::keepReserve).hasMessageContaining("full");
        assertThat(disk.giveUpReserve()).isFalse();
    }

    @Test
    void oneOperationFailsAndNoOther() throws IOException {
        ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
        disk.failAt(1);
        assertThatThrownBy(() -> disk.append("a", bytes("1"))).isInstanceOf(IOException.class);
        disk.append("a", bytes("2"));
        disk.force("a");
        assertThat(text(disk, "a")).isEqualTo("2");
        assertThat(disk.forces()).isEqualTo(1);
        assertThat(disk.journal()).containsExactly("append a 1", "append a 1", "force a");
    }
}
