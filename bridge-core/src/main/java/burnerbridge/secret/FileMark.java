package burnerbridge.secret;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermission;
import org.jspecify.annotations.Nullable;

/**
 * What tells a file from the one that will be in its place. Links are followed: some systems renew a file
 * by turning a link.
 */
public record FileMark(
        Path file, @Nullable Object key, @Nullable FileTime modified, long size) {

    public static FileMark of(Path file) {
        try {
            BasicFileAttributes now = Files.readAttributes(file, BasicFileAttributes.class);
            return new FileMark(file, now.fileKey(), now.lastModifiedTime(), now.size());
        } catch (IOException e) {
            return new FileMark(file, null, null, -1);
        }
    }

    public static boolean isReadableByAll(Path file) {
        try {
            return Files.getPosixFilePermissions(file).contains(PosixFilePermission.OTHERS_READ);
        } catch (IOException | UnsupportedOperationException e) {
            return false;
        }
    }

    /** Why a file cannot be read, for people. */
    public static String reason(Path file, IOException e) {
        if (e instanceof NoSuchFileException) {
            return "there is no such file";
        }
        if (Files.isDirectory(file)) {
            return "it is a folder, as containers make one where a file was to be mounted that is not there";
        }
        if (e instanceof CharacterCodingException) {
            return "it is not a text in UTF-8";
        }
        return e instanceof AccessDeniedException
                ? "this user may not read it"
                : e.getClass().getSimpleName();
    }
}
