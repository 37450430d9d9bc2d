package burnerbridge.config.problem;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Predicate;

/** Why a file could not be read, for people who may have to give somebody the right to it. */
public final class Unreadable {
    private Unreadable() {}

    /** A sentence for behind the name of the file. */
    public static String why(IOException e) {
        return "cannot be read: "
                + (e instanceof AccessDeniedException denied
                        ? user() + " has no right to " + denied.getFile() + ", or to a folder above it"
                        : e.getMessage());
    }

    /** A sentence where nothing can be said of a file since a folder above it is closed to this user. */
    public static Optional<String> closed(Path file) {
        return closed(file, Files::isExecutable);
    }

    static Optional<String> closed(Path file, Predicate<Path> mayEnter) {
        for (Path folder = file.toAbsolutePath().getParent(); folder != null; folder = folder.getParent()) {
            if (Files.isDirectory(folder)) {
                return mayEnter.test(folder)
                        ? Optional.empty()
                        : Optional.of("cannot be looked at: " + user() + " may not enter the folder " + folder);
            }
        }
        return Optional.empty();
    }

    private static String user() {
        return "user " + System.getProperty("user.name");
    }
}
