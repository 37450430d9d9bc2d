package burnerbridge.write.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/** Fills a small disk and then meets one that can only be read, in a process that may mount such disks. */
final class FullDisk {
    private static final int LINE = 1_000;
    private static final int RESERVE = 64 * 1024;

    private FullDisk() {}

    public static void main(String[] args) throws IOException {
        FolderDisk disk = new FolderDisk(Path.of(args[1]), RESERVE);
        if (args[0].equals("fill")) {
            fill(disk);
        } else {
            System.out.println("read: " + disk.read("whole").length);
            told("append", () -> disk.append("a", new byte[1]));
            told("replace", () -> disk.replace("whole", new byte[1]));
            told("give up", () -> disk.giveUpReserve());
        }
    }

    private static void fill(FolderDisk disk) throws IOException {
        byte[] line = "x".repeat(LINE - 1).concat("\n").getBytes(StandardCharsets.US_ASCII);
        disk.keepReserve();
        disk.replace("whole", "before".getBytes(StandardCharsets.US_ASCII));
        int lines = 0;
        try {
            while (true) {
                disk.append("a", line);
                disk.force("a");
                lines++;
            }
        } catch (IOException e) {
            System.out.println("append: " + e.getMessage());
        }
        disk.truncate("a", (long) lines * LINE);
        told("replace", () -> disk.replace("whole", new byte[100_000]));
        System.out.println("whole: " + new String(disk.read("whole"), StandardCharsets.US_ASCII));
        int[] more = new int[1];
        while (more[0] < 10) {
            disk.atAnyCost(() -> {
                disk.append("a", line);
                disk.force("a");
            });
            more[0]++;
        }
        System.out.println("lines: " + (disk.read("a").length == (lines + 10) * LINE));
        told("reserve", disk::keepReserve);
        disk.truncate("a", 0);
        disk.keepReserve();
        System.out.println("reserve: kept");
        System.out.println("names: " + disk.names(""));
    }

    private static void told(String what, Disk.Work work) {
        try {
            work.run();
            System.out.println(what + ": it worked");
        } catch (IOException e) {
            System.out.println(what + ": " + e.getMessage());
        }
    }
}
