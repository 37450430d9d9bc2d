package burnerbridge.write.store;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Disks that are really full or really read-only: file systems of their own, which nobody else sees mounted. */
class FullDiskIT {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path place;

    @BeforeAll
    static void requireMounts() throws IOException, InterruptedException {
        OutsideProgram.require("unshare", "util-linux");
        OutsideProgram.require(
                alone("mount -t tmpfs none /mnt && echo mounted").contains("mounted"),
                "the right to mount a file system in a namespace of one's own",
                "run as root, or with CAP_SYS_ADMIN");
    }

    private static String alone(String script) throws IOException, InterruptedException {
        return OutsideProgram.output(List.of("unshare", "--mount", "sh", "-c", script));
    }

    private static String java(String... arguments) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                "'" + System.getProperty("java.class.path") + "'",
                FullDisk.class.getName()));
        command.addAll(List.of(arguments));
        return String.join(" ", command);
    }

    @Test
    void aFullDiskIsToldAndTheReserveHasRoomForWhatMustBeWritten() throws Exception {
        Files.createDirectory(place.resolve("small"));
        String said = alone("cd " + place + " && mount -t tmpfs -o size=256k none small && "
                + java("fill", place.resolve("small/writes").toString()));
        assertThat(said.lines())
                .containsExactly(
                        "append: " + place + "/small/writes/a cannot be written: the disk is full (No space left on"
                                + " device)",
                        "replace: " + place + "/small/writes/whole cannot be written: the disk is full (No space left"
                                + " on device)",
                        "whole: before",
                        "lines: true",
                        "reserve: " + place + "/small/writes/reserve cannot be written: the disk is full (No space left"
                                + " on device)",
                        "reserve: kept",
                        "names: [a, whole]");
    }

    @Test
    void aDiskThatCanOnlyBeReadIsToldAndRead() throws Exception {
        try (FolderDisk disk = new FolderDisk(place.resolve("writes"))) {
            disk.replace("whole", new byte[7]);
            disk.keepReserve();
        }
        String said = alone("mount --bind " + place + " " + place + " && mount -o remount,bind,ro " + place + " && "
                + java("look", place.resolve("writes").toString()));
        assertThat(said.lines())
                .containsExactly(
                        "read: 7",
                        "append: " + place + "/writes/a cannot be written: the disk can only be read (Read-only file"
                                + " system)",
                        "replace: " + place + "/writes/whole cannot be written: the disk can only be read (Read-only"
                                + " file system)",
                        "give up: " + place + "/writes/reserve cannot be taken away: the disk can only be read"
                                + " (Read-only file system)");
    }
}
