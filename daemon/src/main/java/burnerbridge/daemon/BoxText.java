package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.state.StateException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileStore;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** What the box is, and which files are in the state folder: names, sizes and rights, nothing of what they hold. */
final class BoxText {
    private static final int MOST_FILES = 500;

    private final StateOption state;
    private final SiteFolder site;
    private final List<String> lines = new ArrayList<>();

    BoxText(StateOption state, SiteFolder site) {
        this.state = state;
        this.site = site;
    }

    String text() {
        lines.add("burner-bridge " + Main.VERSION);
        lines.add("time " + new MachineClock().now().wall());
        for (String name : List.of("java.version", "java.vm.name", "os.name", "os.version", "os.arch", "user.name")) {
            lines.add(name + " " + System.getProperty(name, ""));
        }
        lines.add("processors " + Runtime.getRuntime().availableProcessors());
        memoryLimit("/sys/fs/cgroup/memory.max");
        memoryLimit("/sys/fs/cgroup/memory/memory.limit_in_bytes");
        // Their names alone: what they hold may be a secret.
        System.getenv().keySet().stream()
                .filter(name -> name.startsWith("BURNER_BRIDGE_") || name.equals("STATE_DIRECTORY"))
                .sorted()
                .forEach(name -> lines.add("environment has " + name));
        stateFolder();
        return String.join("\n", lines) + "\n";
    }

    private void memoryLimit(String file) {
        try {
            lines.add("memory limit " + Files.readString(Path.of(file)).strip() + " (" + file + ")");
        } catch (IOException e) {
            // Another kind of system.
        }
    }

    private void stateFolder() {
        try {
            Path folder = state.of(site);
            FileStore store = Files.getFileStore(folder);
            lines.add("state folder " + folder + ", on " + store.type() + ", " + store.getUsableSpace() / 1024
                    + " KiB free" + (store.isReadOnly() ? ", read-only" : ""));
            try (Stream<Path> files = Files.walk(folder)) {
                files.limit(MOST_FILES).forEach(file -> lines.add("  " + described(folder, file)));
            }
        } catch (StateException | IOException | UncheckedIOException e) {
            lines.add("state folder: " + e.getMessage());
        }
    }

    private static String described(Path folder, Path file) {
        try {
            PosixFileAttributes known =
                    Files.readAttributes(file, PosixFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
            return PosixFilePermissions.toString(known.permissions()) + " "
                    + known.owner().getName() + " " + known.size() + " " + known.lastModifiedTime() + " "
                    + folder.relativize(file);
        } catch (IOException e) {
            return file + ": " + e.getMessage();
        }
    }
}
